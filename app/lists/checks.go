package lists

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Checks lists everything that was held against a limit, kept or broken,
// with the source of each a tap away.
type Checks struct {
	summary *widget.Label
	detail  *widget.Label
	lines   *inLines
	checks  []rule.Check
	result  geometry.Result
	chosen  int
	fly     func(rule.Check)
}

// NewChecks makes the list; fly is told which line was chosen.
func NewChecks(keys *control.Keys, fly func(rule.Check)) *Checks {
	p := &Checks{summary: widget.NewLabel(""), detail: widget.NewLabel(""), fly: fly, chosen: -1}
	p.summary.Wrapping, p.detail.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	p.summary.TextStyle.Bold = true
	p.lines = newLines(keys, func() int { return len(p.checks) }, newCheckRow,
		func(i int, row *fyne.Container) { p.fill(row, p.checks[i]) })
	p.lines.list.OnSelected = func(i widget.ListItemID) {
		p.chosen = i
		p.tell()
		p.fly(p.checks[i])
	}
	return p
}

// newCheckRow is a row to be filled: whether the limit is kept, what it is of, and figure and limit, in as many lines as
// they take.
func newCheckRow() *fyne.Container {
	said := container.New(control.Column{}, control.NewWrapped(""), control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption))
	padded := container.New(layout.NewCustomPaddedLayout(theme.Space1, theme.Space1, 0, theme.Space3), said)
	return container.NewBorder(nil, nil, widget.NewLabel(""), nil, padded)
}

// fill fills a row with a check.
func (p *Checks) fill(row *fyne.Container, k rule.Check) {
	said, sign := row.Objects[0].(*fyne.Container).Objects[0].(*fyne.Container), row.Objects[1].(*widget.Label)
	sign.Importance = widget.SuccessImportance
	sign.SetText("✓")
	if !k.Kept {
		sign.Importance = map[rule.Severity]widget.Importance{
			rule.Stop: widget.DangerImportance, rule.Licensed: widget.WarningImportance,
		}[k.Rule.Severity]
		sign.SetText("✕")
	}
	said.Objects[0].(*control.Text).SetText(theme.Word(rule.QuantityName(k.Rule.Quantity)))
	said.Objects[1].(*control.Text).SetText(theme.Say(k.Message(), p.result.Settled.Units))
	row.Layout.Layout(row.Objects, row.Size()) // what the sign leaves
	said.Layout.Layout(said.Objects, said.Size())
}

// Away tells that the list is not seen, or is again: until then its rows are not measured.
func (p *Checks) Away(on bool) { p.lines.setAway(on) }

// Object is what is shown of it.
func (p *Checks) Object() fyne.CanvasObject {
	return container.NewBorder(p.summary, container.NewVBox(widget.NewSeparator(), p.detail), nil, nil, p.lines.object)
}

// Show lists the checks of a result, what is broken before what is kept.
func (p *Checks) Show(r geometry.Result) {
	p.result = r
	var broken, kept []rule.Check
	for _, c := range r.Pack.Checks(r.Measured) {
		if c.Kept {
			kept = append(kept, c)
		} else {
			broken = append(broken, c)
		}
	}
	p.checks = slices.Concat(broken, kept)
	p.summary.SetText(theme.Say(message.Of("check.kept", message.No("kept", len(kept)), message.N("n", len(p.checks))), r.Settled.Units))
	p.tell()
	p.lines.renew()
}

// tell writes the source of the chosen check.
func (p *Checks) tell() {
	if p.chosen < 0 || p.chosen >= len(p.checks) {
		p.detail.SetText(theme.Word("app.choose-a-line-to-see-the"))
		return
	}
	r := p.checks[p.chosen].Rule
	p.detail.SetText(theme.Say(message.Lines(r.Text(), r.Origin()), p.result.Settled.Units))
}
