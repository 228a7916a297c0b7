package app

import (
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/fit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// addRemedy puts a button on the card that makes the change a finding goes away by, with
// what that asks for; or says what hinders it. Nothing where there is no such change.
func (c *findingCard) addRemedy(f rule.Finding, add func(string, widget.Importance)) {
	u := c.panel.result.Settled.Units
	r, why, ok := fit.RemedyOf(c.panel.result, f)
	if !ok {
		if !why.IsZero() {
			add(say(why, u), widget.MediumImportance)
		}
		return
	}
	c.remedy = widget.NewButton(say(r.Does, u), func() { c.panel.change(r.Edit) })
	c.details.Add(c.remedy)
	for _, n := range r.Asks() {
		add(say(message.Of("remedy.brings", message.In("heading", n.Rule.Heading()), message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy())), u), widget.WarningImportance)
	}
}
