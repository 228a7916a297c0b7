package lists

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
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
	list    *control.List
	detail  *widget.Label
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
	p.list = control.NewList(keys, func() int { return len(p.checks) }, func() fyne.CanvasObject {
		name, value := widget.NewLabel(""), widget.NewLabel("")
		name.Truncation, value.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
		value.SizeName = fynetheme.SizeNameCaptionText
		return container.NewBorder(nil, nil, widget.NewLabel(""), nil, container.New(tight{}, name, value))
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		c := o.(*fyne.Container)
		lines, sign := c.Objects[0].(*fyne.Container), c.Objects[1].(*widget.Label)
		k := p.checks[i]
		sign.Importance = widget.SuccessImportance
		sign.SetText("✓")
		if !k.Kept {
			sign.Importance = map[rule.Severity]widget.Importance{
				rule.Stop: widget.DangerImportance, rule.Licensed: widget.WarningImportance,
			}[k.Rule.Severity]
			sign.SetText("✕")
		}
		lines.Objects[0].(*widget.Label).SetText(theme.Word(rule.QuantityName(k.Rule.Quantity)))
		lines.Objects[1].(*widget.Label).SetText(theme.Say(k.Message(), p.result.Settled.Units))
	})
	p.list.OnSelected = func(i widget.ListItemID) {
		p.chosen = i
		p.tell()
		p.fly(p.checks[i])
	}
	return p
}

// tight sets two lines of text close together.
type tight struct{}

// MinSize holds both lines.
func (tight) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, objects[0].MinSize().Height+objects[1].MinSize().Height-14)
}

// Layout puts the second line under the first.
func (tight) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	h := objects[0].MinSize().Height
	objects[0].Move(fyne.NewPos(0, -2))
	objects[0].Resize(fyne.NewSize(s.Width, h))
	objects[1].Move(fyne.NewPos(0, h-14))
	objects[1].Resize(fyne.NewSize(s.Width, objects[1].MinSize().Height))
}

// Object is what is shown of it.
func (p *Checks) Object() fyne.CanvasObject {
	return container.NewBorder(p.summary, container.NewVBox(widget.NewSeparator(), p.detail), nil, nil, p.list)
}

// Show lists the checks of a result.
func (p *Checks) Show(r geometry.Result) {
	p.result, p.checks = r, r.Pack.Checks(r.Measured)
	kept := 0
	for _, c := range p.checks {
		if c.Kept {
			kept++
		}
	}
	p.summary.SetText(theme.Say(message.Of("check.kept", message.No("kept", kept), message.N("n", len(p.checks))), r.Settled.Units))
	p.tell()
	p.list.Refresh()
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
