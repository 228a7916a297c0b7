package app

import (
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/fit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// knownRemedy is what fit.RemedyOf gave of a finding.
type knownRemedy struct {
	of     rule.Finding
	remedy fit.Remedy
	why    message.Message
	ok     bool
}

// remedyOf is fit.RemedyOf of the job that is shown: that works floors out, so what it gave
// is kept while the job stays the same.
func (p *findingsPanel) remedyOf(f rule.Finding) knownRemedy {
	known, ok := p.remedies[f.Key()]
	if !ok {
		known.of = f
		known.remedy, known.why, known.ok = fit.RemedyOf(p.result, f)
		p.remedies[f.Key()] = known
	}
	return known
}

// remedyOfCard is what the place that the card shows goes away by; where nothing is known
// for it, what another of its places does.
func (c *findingCard) remedyOfCard() knownRemedy {
	first := c.panel.remedyOf(c.place().Finding)
	if first.ok || !first.why.IsZero() {
		return first
	}
	for _, p := range c.of.Places {
		if known := c.panel.remedyOf(p.Finding); known.ok {
			return known
		}
	}
	return first
}

// addRemedy puts a button on the card that makes the change a finding goes away by, with
// what that asks for; or says what hinders it. Nothing where there is no such change.
func (c *findingCard) addRemedy(add func(string, widget.Importance)) {
	u := c.panel.result.Settled.Units
	known := c.remedyOfCard()
	if !known.ok {
		if !known.why.IsZero() {
			add(theme.Say(known.why, u), widget.MediumImportance)
		}
		return
	}
	r := known.remedy
	c.remedy = widget.NewButton(theme.Say(r.Does, u), func() { c.panel.change(r.Edit) })
	c.details.Add(c.remedy)
	for _, n := range r.Asks() {
		brings := message.Of("remedy.brings", message.In("heading", n.Rule.Heading()),
			message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy()))
		add(theme.Say(brings, u), widget.WarningImportance)
	}
	for _, m := range r.Changes(c.panel.result, known.of) {
		add(theme.Say(m, u), widget.MediumImportance)
	}
}
