package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// cautionsList is the standing cautions of the work by its stages, behind one press.
type cautionsList struct {
	item      *widget.AccordionItem
	accordion *widget.Accordion
	box       *fyne.Container
}

func newCautionsList() *cautionsList {
	l := &cautionsList{box: container.NewVBox()}
	l.item = widget.NewAccordionItem("", l.box)
	l.accordion = widget.NewAccordion(l.item)
	return l
}

func (l *cautionsList) object() fyne.CanvasObject { return l.accordion }

// show lists the cautions of a result.
func (l *cautionsList) show(r geometry.Result) {
	u := r.Settled.Units
	l.item.Title = theme.Say(message.Of("app.cautions", message.N("n", len(r.Cautions))), u)
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
	l.accordion.Refresh()
}
