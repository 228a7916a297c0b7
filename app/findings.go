package app

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// findingsPanel lists what clashes and what to mind, gravest first. Findings
// of one rule stand together, with their places.
type findingsPanel struct {
	theme   *appTheme
	box     *fyne.Container
	summary *widget.Label
	scroll  *container.Scroll
	fly     func(rule.Finding)
	change  func(edit.Edit)
	cards   []*findingCard
	open    string // key of the card that shows its details
	shown   string // what the cards were made of
	result  geometry.Result
	risks   []chance.Risk
	// marginMM is how much higher the base would be safe.
	marginMM float64
	stale    bool // the risks are of an earlier result
	later    *widget.Label
	remedy   knownRemedy
}

func newFindingsPanel(t *appTheme, fly func(rule.Finding), change func(edit.Edit)) *findingsPanel {
	p := &findingsPanel{theme: t, box: container.NewVBox(), summary: widget.NewLabel(""), fly: fly, change: change}
	p.summary.Wrapping = fyne.TextWrapWord
	p.summary.TextStyle.Bold = true
	p.scroll = container.NewVScroll(p.box)
	p.later = widget.NewLabel("")
	p.later.Wrapping = fyne.TextWrapWord
	p.later.TextStyle.Bold = true
	return p
}

func (p *findingsPanel) object() fyne.CanvasObject {
	note := widget.NewLabel(word("app.underfall-informs-it-does-not-certify"))
	note.Wrapping = fyne.TextWrapWord
	note.Importance = widget.LowImportance
	return container.NewBorder(p.summary, note, nil, nil, p.scroll)
}

// findingGroup is one rule with every place that breaks it, worst first; or
// one that may break once the job is built.
type findingGroup struct {
	findings []rule.Finding
	risk     *chance.Risk
}

// mayBreak are the risks that are no findings yet.
func mayBreak(risks []chance.Risk) []findingGroup {
	var out []findingGroup
	for i, r := range risks {
		if !r.Planned {
			out = append(out, findingGroup{[]rule.Finding{{Rule: r.Rule, Measurement: r.Measurement}}, &risks[i]})
		}
	}
	return out
}

// showRisks takes what was counted for the result that is shown.
func (p *findingsPanel) showRisks(c chance.Chances) {
	p.risks, p.marginMM, p.stale = c.Risks, c.MarginMM, false
	p.fill(p.result)
}

// groups puts findings of one heading together, keeping the order.
func groups(fs []rule.Finding) []findingGroup {
	var out []findingGroup
	at := map[string]int{}
	for _, f := range fs {
		k, ok := at[f.Rule.ID]
		if !ok {
			k = len(out)
			at[f.Rule.ID] = k
			out = append(out, findingGroup{})
		}
		g := &out[k]
		// The worst stands first.
		if len(g.findings) > 0 && worse(f, g.findings[0]) {
			g.findings = append([]rule.Finding{f}, g.findings...)
		} else {
			g.findings = append(g.findings, f)
		}
	}
	return out
}

func worse(a, b rule.Finding) bool {
	miss := func(f rule.Finding) float64 { return math.Abs(f.Measurement.Value - f.Rule.Limit) }
	return miss(a) > miss(b)
}

func (p *findingsPanel) show(r geometry.Result) {
	p.stale = true
	p.fill(r)
}

func (p *findingsPanel) fill(r geometry.Result) {
	p.result = r
	gs := groups(r.Findings)
	found := len(gs)
	gs = append(gs, mayBreak(p.risks)...)
	p.later.SetText(word("app.may-still-go-wrong-given-the"))
	const worthMM = 0.5
	if p.marginMM > worthMM {
		margin := message.Of("chance.margin", message.Layer("margin", math.Ceil(p.marginMM*2)/2))
		p.later.SetText(p.later.Text + "\n" + say(margin, r.Settled.Units))
	}
	if p.stale {
		p.later.SetText(word("app.may-still-go-wrong-being-worked"))
	}
	var key strings.Builder
	for _, g := range gs {
		if g.risk != nil {
			fmt.Fprintf(&key, "%s %v;", g.risk.Chance(), g.risk.Main)
		}
		for _, f := range g.findings {
			fmt.Fprintf(&key, "%s=%s;", f.Key(), say(f.Message(), r.Settled.Units))
		}
	}
	p.summary.SetText(say(r.Verdict(), r.Settled.Units) + " " + forLicensed(rule.Causes(r.Findings, rule.Licensed)))
	p.summary.Importance = widget.SuccessImportance
	switch {
	case r.Stops():
		p.summary.Importance = widget.DangerImportance
	case r.Risky():
		p.summary.Importance = widget.WarningImportance
	case slices.ContainsFunc(p.risks, chance.Risk.StopsTooOften):
		p.summary.SetText(p.summary.Text + " " + word("app.may-stop"))
		p.summary.Importance = widget.WarningImportance
	}
	p.summary.Refresh()
	k := key.String() + fmt.Sprint(p.theme.dark, r.Settled.Units)
	if k == p.shown {
		// The same findings: only where they lie may have moved, and what ends them.
		for i, g := range gs {
			c := p.cards[i]
			if c.group = g; p.open == c.key() {
				c.fill()
			}
		}
		return
	}
	p.shown = k
	p.cards = nil
	p.box.RemoveAll()
	for i, g := range gs {
		if i == found {
			p.box.Add(p.later)
		}
		c := newFindingCard(p, g)
		p.cards = append(p.cards, c)
		p.box.Add(c)
	}
	p.box.Refresh()
}

// forLicensed says how much is for others to decide.
func forLicensed(n int) string {
	if n == 0 {
		return ""
	}
	return say(message.Of("finding.licensed", message.N("n", n)), unit.Metric)
}

// severityColour marks a finding by colour; its word says the same.
func severityColour(t *appTheme, s rule.Severity) color.Color {
	switch s {
	case rule.Stop:
		return color.NRGBA{0xb8, 0x2a, 0x2a, 255}
	case rule.Licensed:
		return color.NRGBA{0xc7, 0x86, 0x12, 255}
	}
	if t.dark {
		return color.NRGBA{0x6d, 0x8f, 0xa8, 255}
	}
	return color.NRGBA{0x52, 0x76, 0x90, 255}
}

// findingCard is one group of findings; tapping it goes to the place and shows
// the details, tapping again goes to the next place.
type findingCard struct {
	widget.BaseWidget
	panel   *findingsPanel
	group   findingGroup
	at      int
	content *fyne.Container
	details *fyne.Container
	place   *widget.RichText
	remedy  *widget.Button // nil where there is none
}

func newFindingCard(p *findingsPanel, g findingGroup) *findingCard {
	c := &findingCard{panel: p, group: g}
	f := g.findings[0]
	bar := canvas.NewRectangle(severityColour(p.theme, f.Rule.Severity))
	bar.SetMinSize(fyne.NewSize(5, 10))
	tag := canvas.NewText(word(f.Rule.Severity.Name()), severityColour(p.theme, f.Rule.Severity))
	tag.TextSize = 10
	tag.TextStyle.Bold = true
	c.place = widget.NewRichText()
	c.place.Wrapping = fyne.TextWrapWord
	c.details = container.NewVBox()
	corner := container.NewVBox(container.NewPadded(tag))
	c.content = container.NewBorder(nil, widget.NewSeparator(), bar, nil,
		container.NewBorder(nil, c.details, nil, corner, c.place))
	c.ExtendBaseWidget(c)
	c.fill()
	return c
}

// fill writes the place and, when open, the details.
func (c *findingCard) fill() {
	u := c.panel.result.Settled.Units
	f := c.group.findings[c.at%len(c.group.findings)]
	line := say(f.Message(), u)
	if c.group.risk != nil {
		line = say(message.Of("chance.of",
			message.In("subject", f.Measurement.Subject.Message()), message.In("chance", c.group.risk.Chance())), u)
	}
	if n := len(c.group.findings); n > 1 {
		line += "  " + say(message.Of("finding.places", message.No("at", c.at%n+1), message.N("n", n)), u)
	}
	c.place.Segments = []widget.RichTextSegment{
		&widget.TextSegment{Text: say(f.Rule.Heading(), u), Style: widget.RichTextStyle{TextStyle: fyne.TextStyle{Bold: true}}},
		&widget.TextSegment{Text: line, Style: widget.RichTextStyleParagraph},
	}
	c.place.Refresh()
	c.details.RemoveAll()
	c.remedy = nil
	if c.panel.open != c.key() {
		c.details.Hide()
		return
	}
	add := func(s string, i widget.Importance) {
		l := widget.NewLabel(s)
		l.Wrapping = fyne.TextWrapWord
		l.Importance = i
		c.details.Add(l)
	}
	if c.group.risk != nil {
		add(say(message.Of("chance.planned", message.In("finding", f.Message())), u)+" "+riskText(*c.group.risk), widget.MediumImportance)
	} else if !c.panel.stale {
		for _, r := range c.panel.risks {
			if r.Key() == f.Key() {
				add(riskText(r), widget.MediumImportance)
			}
		}
	}
	add(say(f.Rule.Text(), u), widget.MediumImportance)
	add(say(message.Of("finding.remedy", message.In("remedy", f.Rule.Remedy())), u), widget.MediumImportance)
	if c.group.risk == nil {
		c.addRemedy(f, add)
	}
	add(say(message.Of("finding.source", message.In("source", f.Rule.Source.Message())), u), widget.LowImportance)
	c.details.Show()
}

// key names the card among the others.
func (c *findingCard) key() string {
	if c.group.risk != nil {
		return "risk " + c.group.risk.Key()
	}
	return c.group.findings[0].Rule.ID
}

// CreateRenderer shows the content.
func (c *findingCard) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(c.content)
}

// Tapped goes to the place, or to the next one.
func (c *findingCard) Tapped(*fyne.PointEvent) {
	id := c.key()
	if c.panel.open == id {
		c.at++
	}
	c.panel.open = id
	for _, o := range c.panel.cards {
		o.fill()
		o.Refresh()
	}
	c.panel.box.Refresh()
	c.panel.fly(c.group.findings[c.at%len(c.group.findings)])
}
