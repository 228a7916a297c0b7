package app

import (
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
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

// remedyOfAll is fit.RemedyOfCard of the card, kept as remedyOf keeps what it gave.
func (c *findingCard) remedyOfAll() knownRemedy {
	key := "all " + c.of.Cause()
	known, ok := c.panel.remedies[key]
	if !ok {
		known.of = c.of.Worst().Finding
		known.remedy, known.ok = fit.RemedyOfCard(c.panel.result, c.of)
		c.panel.remedies[key] = known
	}
	return known
}

// addRemedy puts buttons on the card that make the changes which all of its places go away by,
// and the one that is shown, with what they ask for; or says what hinders it. Nothing where
// there are no such changes.
func (c *findingCard) addRemedy(add func(string, widget.Importance)) {
	if all := c.remedyOfAll(); all.ok {
		c.all = c.addChange(all, add)
	}
	known := c.remedyOfCard()
	if known.ok {
		c.remedy = c.addChange(known, add)
	} else if !known.why.IsZero() {
		add(theme.Say(known.why, c.panel.result.Settled.Units), widget.MediumImportance)
	}
}

// addChange puts the button of a change on the card, and below it what it is made of, asks for
// and changes besides.
func (c *findingCard) addChange(known knownRemedy, add func(string, widget.Importance)) *widget.Button {
	u, r := c.panel.result.Settled.Units, known.remedy
	button := control.NewButton(c.panel.keys, theme.Say(r.Does, u), func() { c.panel.change(r.Edit) })
	c.details.Add(button)
	for _, m := range r.Steps {
		add(theme.Say(message.Of("remedy.step", message.In("does", m)), u), widget.MediumImportance)
	}
	for _, n := range r.Asks() {
		brings := message.Of("remedy.brings", message.In("heading", n.Rule.Heading()),
			message.In("text", n.Rule.Text()), message.In("remedy", n.Rule.Remedy()))
		add(theme.Say(brings, u), widget.WarningImportance)
	}
	for _, m := range r.Changes(c.panel.result, known.of) {
		add(theme.Say(m, u), widget.MediumImportance)
	}
	return &button.Button
}
