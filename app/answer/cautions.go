package answer

import (
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// cautions is the standing cautions of the work by its stages, behind one press.
type cautions struct {
	*control.Fold
	listed string // empty before anything is
}

// show lists the cautions of a result.
func (l *cautions) show(r geometry.Result) {
	u := r.Settled.Units
	listed := string(u)
	for _, c := range r.Cautions {
		listed += " " + c.Key()
	}
	if listed == l.listed {
		return
	}
	l.listed = listed
	l.SetText(theme.Say(message.Of("app.cautions", message.N("n", len(r.Cautions))), u))
	l.Box.RemoveAll()
	var stage rule.Stage
	for _, c := range r.Cautions {
		if c.Rule.Stage != stage {
			stage = c.Rule.Stage
			l.Box.Add(control.NewWrapped(theme.Word(stage.Name())).Styled(theme.TextSecond, true, theme.Ink))
		}
		text := theme.Say(c.Rule.Heading(), u) + "\n" + theme.Say(c.Rule.Text(), u) + " " + theme.Say(c.Rule.Remedy(), u)
		if c.Rule.Severity == rule.Licensed {
			text = theme.Word(c.Rule.Severity.Name()) + " · " + text
		}
		l.Box.Add(control.NewWrapped(text).Styled(theme.TextCaption, false, theme.Ink))
		l.Box.Add(control.NewWrapped(theme.Say(c.Rule.Origin(), u)).Styled(theme.TextCaption, false, theme.Caption))
	}
	l.Box.Refresh()
}
