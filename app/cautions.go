package app

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

// cautionsList is the standing cautions of the work by its stages, behind one press.
type cautionsList struct {
	head *control.ToolButton
	box  *fyne.Container
}

func newCautionsList(keys *control.Keys) *cautionsList {
	l := &cautionsList{box: container.NewVBox()}
	l.head = control.NewButton(keys, "", func() { l.open(!l.box.Visible()) })
	l.head.Alignment, l.head.Importance = widget.ButtonAlignLeading, widget.LowImportance
	l.open(false)
	return l
}

func (l *cautionsList) object() fyne.CanvasObject { return container.NewVBox(l.head, l.box) }

// open shows the cautions or not.
func (l *cautionsList) open(on bool) {
	if on {
		l.box.Show()
		l.head.SetIcon(fynetheme.MenuDropUpIcon())
	} else {
		l.box.Hide()
		l.head.SetIcon(fynetheme.MenuDropDownIcon())
	}
}

// show lists the cautions of a result.
func (l *cautionsList) show(r geometry.Result) {
	u := r.Settled.Units
	l.head.SetText(theme.Say(message.Of("app.cautions", message.N("n", len(r.Cautions))), u))
	l.box.RemoveAll()
	var stage rule.Stage
	for _, c := range r.Cautions {
		if c.Rule.Stage != stage {
			stage = c.Rule.Stage
			heading := paragraph(theme.Word(stage.Name()))
			heading.TextStyle.Bold = true
			l.box.Add(heading)
		}
		text := theme.Say(c.Rule.Heading(), u) + "\n" + theme.Say(c.Rule.Text(), u) + " " + theme.Say(c.Rule.Remedy(), u)
		if c.Rule.Severity == rule.Licensed {
			text = theme.Word(c.Rule.Severity.Name()) + " · " + text
		}
		l.box.Add(paragraph(text))
		source := paragraph(theme.Say(c.Rule.Origin(), u))
		source.Importance = widget.LowImportance
		l.box.Add(source)
	}
	l.box.Refresh()
}
