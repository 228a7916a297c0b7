package app

import (
	"reflect"

	"fyne.io/fyne/v2/widget"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// knownRemedy is what was worked out last of what a finding of a job goes away by.
type knownRemedy struct {
	of      job.Job
	rule    string
	subject rule.Subject
	remedy  fit.Remedy
	why     message.Message
	ok      bool
}

// remedyOf is fit.RemedyOf of the job that is shown: that works floors out, so what it gave
// is kept while job and finding stay the same.
func (p *findingsPanel) remedyOf(f rule.Finding) *knownRemedy {
	k, of, subject := &p.remedy, p.result.Stated, f.Measurement.Subject
	if k.rule != f.Rule.ID || k.subject != subject || !reflect.DeepEqual(k.of, of) {
		*k = knownRemedy{of: of, rule: f.Rule.ID, subject: subject}
		k.remedy, k.why, k.ok = fit.RemedyOf(p.result, f)
	}
	return k
}

// addRemedy puts a button on the card that makes the change a finding goes away by, with
// what that asks for; or says what hinders it. Nothing where there is no such change.
func (c *findingCard) addRemedy(f rule.Finding, add func(string, widget.Importance)) {
	u := c.panel.result.Settled.Units
	known := c.panel.remedyOf(f)
	if !known.ok {
		if !known.why.IsZero() {
			add(say(known.why, u), widget.MediumImportance)
		}
		return
	}
	r := known.remedy
	c.remedy = widget.NewButton(say(r.Does, u), func() { c.panel.change(r.Edit) })
	c.details.Add(c.remedy)
	for _, n := range r.Asks() {
		brings := message.Of("remedy.brings", message.In("heading", n.Rule.Heading()),
			message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy()))
		add(say(brings, u), widget.WarningImportance)
	}
}
