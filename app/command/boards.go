package command

import (
	"underfall/app/words"
	"underfall/geometry/boarding"
)

// reportBoards is how boards are laid and sawn.
type reportBoards struct {
	Layers []reportBoardLayer `json:"layers"`
	Sheets []reportSheets     `json:"sheets"`
}

// reportBoardLayer is one layer: BoardMM is how thick its boards are as they are sold, none of a former's.
type reportBoardLayer struct {
	Name        string        `json:"name"`
	ThicknessMM float64       `json:"thicknessMM"`
	BoardMM     float64       `json:"boardMM,omitempty"`
	Pieces      []reportBoard `json:"pieces"`
	LooseJoints int           `json:"looseJoints,omitempty"`
	TooMany     bool          `json:"tooMany,omitempty"`
}

// reportBoard is one piece: Sheet is the one of its thickness that it is sawn from, none of a
// former's.
type reportBoard struct {
	Number   int     `json:"number"`
	LengthMM float64 `json:"lengthMM"`
	WidthMM  float64 `json:"widthMM"`
	Notched  bool    `json:"notched,omitempty"`
	// Cuts are what is sawn out of it; none where it is cut askew.
	Cuts    []reportCut `json:"cuts,omitempty"`
	ThinMM  float64     `json:"thinMM"`
	ThickMM float64     `json:"thickMM"`
	Sheet   int         `json:"sheet,omitempty"`
}

// reportCut is a rectangle that is sawn out of a piece, so far from its corner.
type reportCut struct {
	AlongMM  float64 `json:"alongMM"`
	AcrossMM float64 `json:"acrossMM"`
	LengthMM float64 `json:"lengthMM"`
	WidthMM  float64 `json:"widthMM"`
}

// reportSheets are the sheets of one thickness.
type reportSheets struct {
	ThicknessMM float64 `json:"thicknessMM"`
	LengthMM    float64 `json:"lengthMM"`
	WidthMM     float64 `json:"widthMM"`
	Sheets      int     `json:"sheets"`
	LeftMM2     float64 `json:"leftMM2"`
}

// boardsOf is nil where no boards are laid.
func boardsOf(p boarding.Plan, b words.Book) *reportBoards {
	if len(p.Layers) == 0 {
		return nil
	}
	out := &reportBoards{}
	for i := range p.Layers {
		l := &p.Layers[i]
		layer := reportBoardLayer{Name: b.Say(l.Name), ThicknessMM: round(l.ThicknessMM), BoardMM: round(l.BoardMM),
			LooseJoints: l.Loose, TooMany: l.TooMany}
		for _, x := range l.Pieces {
			piece := reportBoard{
				Number: x.Number, LengthMM: round(x.LengthMM), WidthMM: round(x.WidthMM), Notched: x.Notched,
				ThinMM: round(x.ThinMM), ThickMM: round(x.ThickMM), Sheet: x.Sheet,
			}
			for _, c := range x.Cuts {
				piece.Cuts = append(piece.Cuts, reportCut{round(c.AtMM.X()), round(c.AtMM.Y()), round(c.SizeMM.X()), round(c.SizeMM.Y())})
			}
			layer.Pieces = append(layer.Pieces, piece)
		}
		out.Layers = append(out.Layers, layer)
	}
	for _, s := range p.Stocks {
		out.Sheets = append(out.Sheets, reportSheets{round(s.ThicknessMM), round(s.LengthMM), round(s.WidthMM), s.Sheets, round(s.LeftMM2)})
	}
	return out
}
