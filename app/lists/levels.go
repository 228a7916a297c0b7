// Package lists has the lists of what has been worked out: the levels, what the water does, and
// all that was held against a limit. They are shown a result; a line that is chosen is handed on.
package lists

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
)

// Levels is the schedule of levels, with the least raise and what governs
// it on top and the build-up of the chosen row below.
type Levels struct {
	raise   *fyne.Container // what heights the base may have
	now     *widget.Label
	lines   *inLines
	stack   *widget.Label
	rows    []buildup.Row
	lower   *control.Text   // whether the pipe, laid another way, would need a lower base
	try     *control.Press  // tries that
	pressed *fyne.Container // the press, as wide as it is
	result  geometry.Result
	chosen  int
	fly     func(buildup.Row)
	sight   *sight.Sight // which says what levels are counted from
}

// NewLevels makes the list; fly is told which row was chosen.
func NewLevels(keys *control.Keys, s *sight.Sight, fly func(buildup.Row)) *Levels {
	p := &Levels{sight: s, fly: fly, chosen: -1,
		raise: container.New(control.Column{Gap: theme.Space1}), now: widget.NewLabel(""), stack: widget.NewLabel(""),
		lower: secondly(""), try: control.NewPress(keys, "", nil)}
	p.try.Small = true
	p.pressed = container.NewHBox(p.try)
	p.ShowLower(message.Message{}, 0, nil)
	p.stack.Wrapping = fyne.TextWrapWord
	p.now.Wrapping = fyne.TextWrapWord
	p.now.Importance = widget.HighImportance
	p.now.Hide()
	p.lines = newLines(keys, func() int { return len(p.rows) }, newLevelRow, func(i int, row *fyne.Container) { p.fill(row, p.rows[i]) })
	p.lines.list.OnSelected = func(i widget.ListItemID) {
		p.chosen = i
		p.showStack()
		if i < len(p.rows) {
			p.fly(p.rows[i])
		}
	}
	return p
}

// levelGap is how far a level stands from what it is of, in units.
const levelGap = theme.Space3

// newLevelRow is a row to be filled: what the level is of, in as many lines as that takes, and the level.
func newLevelRow() *fyne.Container {
	value := control.NewText("")
	value.Align = fyne.TextAlignTrailing
	name := container.New(layout.NewCustomPaddedLayout(0, 0, 0, levelGap), control.NewWrapped(""))
	return container.New(layout.NewCustomPaddedLayout(theme.Space2, theme.Space2, theme.Space2, theme.Space3),
		container.NewBorder(nil, nil, nil, value, name))
}

// fill fills a row with a level; a step stands out.
func (p *Levels) fill(row *fyne.Container, of buildup.Row) {
	line := row.Objects[0].(*fyne.Container)
	name, value := line.Objects[0].(*fyne.Container), line.Objects[1].(*control.Text)
	name.Objects[0].(*control.Text).SetText(theme.Say(of.Message(), p.result.Settled.Units))
	if value.Role = theme.Ink; of.Kind() == buildup.IsStep {
		value.Role = theme.Press
	}
	said := message.Of("levels.value", message.Arg{Name: "value", Value: of.Said()})
	if of.Kind() != buildup.IsFall && of.Statistical > 0 {
		said = message.Of("levels.value-about", said.Args[0], message.Layer("by", of.Statistical))
	}
	value.SetText(p.say(said))
	line.Layout.Layout(line.Objects, line.Size()) // what the level leaves
}

// Away tells that the list is not seen, or is again: until then its rows are not measured.
func (p *Levels) Away(on bool) { p.lines.setAway(on) }

// secondly is a text as lists tell what is beside their rows.
func secondly(text string) *control.Text {
	return control.NewWrapped(text).Styled(theme.TextSecond, false, theme.Ink)
}

// Object is what is shown of it.
func (p *Levels) Object() fyne.CanvasObject {
	heights := container.New(layout.NewCustomPaddedLayout(0, theme.Space2, theme.Space2, theme.Space2),
		container.New(control.Column{Gap: theme.Space1}, p.raise, p.lower, p.pressed))
	foot := container.NewVBox(widget.NewSeparator(), p.stack)
	return container.NewBorder(container.NewVBox(heights, p.now), foot, nil, nil, p.lines.object)
}

// Show lists the levels of a result, and what the answer to it, as far as that is known, has of them; one that has problems is left out.
func (p *Levels) Show(r geometry.Result, a geometry.Answer) {
	same := r.Stated.BuiltAs(p.result.Stated)
	p.result, p.rows = r, r.Schedule
	if len(r.Problems) > 0 {
		return
	}
	p.ShowAnswer(a)
	if !same {
		p.ShowLower(message.Message{}, 0, nil) // of the result before
	}
	p.now.SetText(doNow(r))
	if len(r.DoNow)+len(r.Contradictions) > 0 {
		p.now.Show()
	} else {
		p.now.Hide()
	}
	p.showStack()
	p.lines.renew()
}

// ShowAnswer says what heights the base may have, as the answer to the result that is shown has it.
func (p *Levels) ShowAnswer(a geometry.Answer) {
	u := p.result.Settled.Units
	p.raise.RemoveAll()
	for _, m := range a.HeightLines(p.result) {
		p.raise.Add(secondly(theme.Say(m, u)))
	}
}

// ShowLower says whether the pipe of the result that is shown, laid another way, would need a lower base; nothing as long as that is
// not known. With others, more than nought, there are so many ways besides the one that is told; try, nil for none, tries them.
func (p *Levels) ShowLower(said message.Message, others int, try func()) {
	p.lower.Hidden, p.pressed.Hidden = said.IsZero(), try == nil
	p.lower.SetText("")
	if !said.IsZero() {
		p.lower.SetText(theme.Say(said, p.result.Settled.Units))
	}
	text := theme.Word("trial.try")
	if others > 0 {
		text = theme.Word("levels.lower-more", message.N("n", others))
	}
	p.try.OnPressed = try
	p.try.Set(text, false)
	p.try.Refresh()
}

// LowerSaid tells whether that is said.
func (p *Levels) LowerSaid() bool { return !p.lower.Hidden }

// say is a message in words, with levels as they are counted.
func (p *Levels) say(m message.Message) string {
	return p.sight.Levels(theme.Book().In(p.result.Settled.Units), p.result).Say(m)
}

// Follow has the levels told as they are counted now.
func (p *Levels) Follow() {
	p.showStack()
	p.lines.renew()
}

// showStack writes the build-up under the chosen row's level.
func (p *Levels) showStack() {
	if p.chosen < 0 || p.chosen >= len(p.rows) || len(p.rows[p.chosen].Stack) == 0 {
		from := p.result.NameOf(p.result.Counted(p.sight.Datum).Of)
		p.stack.SetText(theme.Word("app.levels-are-counted", message.In("from", message.Of(from))))
		return
	}
	row := p.rows[p.chosen]
	u := p.result.Settled.Units
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", theme.Say(row.Message(), u))
	for _, line := range row.LayerLines() {
		fmt.Fprintf(&b, "%s\n", theme.Say(line, u))
	}
	fmt.Fprint(&b, theme.Say(message.Of("levels.may-be-off", message.Layer("worst", row.Worst), message.Layer("statistical", row.Statistical)), u))
	p.stack.SetText(b.String())
}

// doNow words what follows from the levels measured as built.
func doNow(r geometry.Result) string {
	var lines []string
	for _, c := range r.Contradictions {
		lines = append(lines, theme.Say(c.Message(), r.Settled.Units))
	}
	for _, i := range r.DoNow {
		line := theme.Say(i.Message(), r.Settled.Units)
		if !i.Possible {
			line += " " + theme.Word("app.that-cannot-be-done-so-see")
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}
