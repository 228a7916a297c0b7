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

type reportBoardLayer struct {
	Name        string        `json:"name"`
	ThicknessMM float64       `json:"thicknessMM"`
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
	ThinMM   float64 `json:"thinMM"`
	ThickMM  float64 `json:"thickMM"`
	Sheet    int     `json:"sheet,omitempty"`
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
		layer := reportBoardLayer{Name: b.Say(l.Name), ThicknessMM: round(l.ThicknessMM), LooseJoints: l.Loose, TooMany: l.TooMany}
		for _, x := range l.Pieces {
			layer.Pieces = append(layer.Pieces, reportBoard{x.Number, round(x.LengthMM), round(x.WidthMM), x.Notched,
				round(x.ThinMM), round(x.ThickMM), x.Sheet})
		}
		out.Layers = append(out.Layers, layer)
	}
	for _, s := range p.Stocks {
		out.Sheets = append(out.Sheets, reportSheets{round(s.ThicknessMM), round(s.LengthMM), round(s.WidthMM), s.Sheets, round(s.LeftMM2)})
	}
	return out
}
