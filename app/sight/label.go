package sight

import (
	"math"

	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Mark is a place in the model that was gone to, with what is there and its figure, shown in every view.
type Mark struct {
	At    [3]float64
	Label message.Message
}

// LabelOf is what is said beside the place of a finding: what is wrong there and by how much, where that
// is a number that says anything by itself.
func LabelOf(f rule.Finding) message.Message {
	if f.Rule.Compare == rule.Present || f.IsBelow() || math.IsNaN(f.Measurement.Value) {
		return f.Rule.Heading()
	}
	return message.Of("finding.mark", message.In("heading", f.Rule.Heading()), f.Figure("value"))
}

// Beside is a label in the few words that there is room for beside a place: lengths stand alone, as in the
// drawings, levels as they are counted.
func (s *State) Beside(label message.Message, r geometry.Result) string {
	return s.Levels(theme.Book().In(r.Settled.Units).Bare(), r).Say(label)
}
