package answer

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

// cautions is the standing cautions of the work by its stages, behind one press.
type cautions struct {
	head *control.ToolButton
	box  *fyne.Container
	told func() // is called when they open or close
}

func newCautions(keys *control.Keys) *cautions {
	l := &cautions{told: func() {}, box: container.New(control.Column{Gap: theme.Space1})}
	l.head = control.NewButton(keys, "", func() { l.open(!l.box.Visible()) })
	l.head.Alignment, l.head.Importance = widget.ButtonAlignLeading, widget.LowImportance
	l.open(false)
	return l
}

func (l *cautions) object() fyne.CanvasObject {
	return container.New(control.Column{}, l.head, l.box)
}

// open shows the cautions or not.
func (l *cautions) open(on bool) {
	if on {
		l.box.Show()
		l.head.SetIcon(fynetheme.MenuDropUpIcon())
	} else {
		l.box.Hide()
		l.head.SetIcon(fynetheme.MenuDropDownIcon())
	}
	l.told()
}

// show lists the cautions of a result.
func (l *cautions) show(r geometry.Result) {
	u := r.Settled.Units
	l.head.SetText(theme.Say(message.Of("app.cautions", message.N("n", len(r.Cautions))), u))
	l.box.RemoveAll()
	var stage rule.Stage
	for _, c := range r.Cautions {
		if c.Rule.Stage != stage {
			stage = c.Rule.Stage
			l.box.Add(control.NewWrapped(theme.Word(stage.Name())).Styled(theme.TextSecond, true, theme.Ink))
		}
		text := theme.Say(c.Rule.Heading(), u) + "\n" + theme.Say(c.Rule.Text(), u) + " " + theme.Say(c.Rule.Remedy(), u)
		if c.Rule.Severity == rule.Licensed {
			text = theme.Word(c.Rule.Severity.Name()) + " · " + text
		}
		l.box.Add(control.NewWrapped(text).Styled(theme.TextCaption, false, theme.Ink))
		l.box.Add(control.NewWrapped(theme.Say(c.Rule.Origin(), u)).Styled(theme.TextCaption, false, theme.Caption))
	}
	l.box.Refresh()
}
