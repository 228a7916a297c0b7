package sight

import (
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// LabelOf is what is written beside the place of a finding: what is wrong there and by how much, in few
// words: lengths stand alone, as in the drawings.
func LabelOf(f rule.Finding, u unit.System) string {
	if f.Rule.Compare == rule.Present || f.IsBelow() {
		return theme.Bare(f.Rule.Heading(), u)
	}
	return theme.Bare(message.Of("finding.mark", message.In("heading", f.Rule.Heading()), f.Figure("value")), u)
}
