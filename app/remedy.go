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
	r, why, ok := fit.Trim(c.panel.result, f)
	if !ok {
		if !why.IsZero() {
			add(say(message.Of("remedy.not", message.In("why", why)), u), widget.MediumImportance)
		}
		return
	}
	c.remedy = widget.NewButton(say(r.Message(), u), func() { c.panel.change(r.Edit) })
	c.details.Add(c.remedy)
	told := map[string]bool{}
	for _, n := range r.New {
		if n.Rule.Severity != rule.Licensed || told[n.Rule.ID] {
			continue
		}
		told[n.Rule.ID] = true
		add(say(message.Of("remedy.brings", message.In("heading", n.Rule.Heading()), message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy())), u), widget.WarningImportance)
	}
}
