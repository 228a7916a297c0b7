package command

import "underfall/geometry/joist"

// reportCutting is what is cut out of joists between trimmers, and put in for it.
type reportCutting struct {
	WidthMM float64 `json:"widthMM"`
	DepthMM float64 `json:"depthMM"`
	// JoistsFrom is the letter of the wall that joists are counted from.
	JoistsFrom string         `json:"joistsFrom"`
	Out        []reportOut    `json:"out"`
	Trimmers   []reportTimber `json:"trimmers"`
	Seconds    []reportTimber `json:"secondJoists"` // by the joist that each doubles
	Hangers    int            `json:"hangers"`
}

// reportOut is what is taken out of a joist, along it from its start in the room.
type reportOut struct {
	Joist  int     `json:"joist"`
	FromMM float64 `json:"fromMM"`
	ToMM   float64 `json:"toMM"`
}

type reportTimber struct {
	Number   int     `json:"number"`
	LengthMM float64 `json:"lengthMM"`
}

// cuttingOf is nil where nothing is cut out.
func cuttingOf(c joist.Cutting) *reportCutting {
	if len(c.Out) == 0 {
		return nil
	}
	out := &reportCutting{WidthMM: round(c.WidthMM), DepthMM: round(c.DepthMM), JoistsFrom: c.From.String(), Hangers: c.Hangers}
	for _, o := range c.Out {
		out.Out = append(out.Out, reportOut{o.Joist, round(o.FromMM), round(o.ToMM)})
	}
	timbers := func(of []joist.Length) (all []reportTimber) {
		for _, t := range of {
			all = append(all, reportTimber{t.Number, round(t.LengthMM)})
		}
		return all
	}
	out.Trimmers, out.Seconds = timbers(c.Trimmers), timbers(c.Seconds)
	return out
}
