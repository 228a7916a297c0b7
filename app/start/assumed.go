package start

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// openList is what practice stands in for and what is not known, one by one, each to be said to be so or
// otherwise. What was said stays in the list as long as it is shown.
type openList struct {
	of     *Sheet
	keys   []string
	rows   map[string]*openRow
	list   *fyne.Container
	object fyne.CanvasObject
}

// openRow is one of them.
type openRow struct {
	so     *control.Press // says that it is so
	object fyne.CanvasObject
	// show brings it to a job and the standing that the input has there.
	show func(j *job.Job, is job.Standing)
}

// goThrough shows in the place of the questions what is open, or the questions again.
func (s *Sheet) goThrough() {
	if s.list != nil {
		s.list = nil
		s.left.Objects[0] = s.asked
	} else {
		s.asked = s.left.Objects[0]
		s.list = newOpenList(s)
		s.left.Objects[0] = s.list.object
		s.list.show()
	}
	s.left.Refresh()
	s.scroll.ScrollToTop()
	s.showFirst()
}

func newOpenList(of *Sheet) *openList {
	l := &openList{of: of, rows: map[string]*openRow{}, list: stacked(theme.Space1)}
	l.object = stacked(theme.Space1, bold(theme.Word("start.assumed-heading"), theme.TextHeading, theme.Ink),
		paragraph(theme.Word("start.assumed-about"), theme.TextSecond, theme.Ink), l.list)
	return l
}

// show brings the list to the first answer: what has become open comes to its end.
func (l *openList) show() {
	j := &l.of.first.Job
	for _, key := range append(j.StandingUsed(job.NotKnown), l.of.first.Assumed...) {
		if l.rows[key] != nil {
			continue
		}
		l.keys = append(l.keys, key)
		row := l.row(key)
		l.rows[key] = row
		l.list.Add(thin())
		l.list.Add(row.object)
	}
	for _, key := range l.keys {
		l.rows[key].show(j, j.StandingOf(key))
	}
	l.list.Refresh()
}

// row makes the row of an input: what it is called, what stands in to be typed over or chosen, and a
// button that says that it is so.
func (l *openList) row(key string) *openRow {
	s := l.of
	name := paragraph("", theme.TextSecond, theme.Ink)
	so := control.NewPress(s.o.Keys, theme.Word("start.it-is-so"), func() { s.answer(s.practice.Confirm(s.at, key)) })
	so.Small = true
	value, follow := s.openValue(key)
	right := container.NewHBox(value, container.New(upright{}, so))
	row := &openRow{so: so, object: container.NewBorder(nil, nil, nil, right, container.New(upright{}, name))}
	row.show = func(j *job.Job, is job.Standing) {
		name.SetText(theme.Say(s.called(j, key), s.at.Units))
		name.Styled(theme.TextSecond, is.Open(), theme.Ink)
		so.Hidden = is == job.NotKnown
		so.Set(so.Text, is != job.Assumed)
		follow(j, is)
	}
	return row
}

// called is what an input of a job is called: as its question calls it where one asks for it.
func (s *Sheet) called(j *job.Job, key string) message.Message {
	if e, ok := s.at.EntryOf(key); ok {
		return message.Of(e.Name())
	}
	return j.PlaceOf(key)
}

// openValue is how an input is said to be otherwise: a field for a number, a list for one of a few, the way
// to its question for anything else.
func (s *Sheet) openValue(key string) (o fyne.CanvasObject, follow func(*job.Job, job.Standing)) {
	if e, ok := s.at.EntryOf(key); ok {
		f := newLength(e, openWide, "", s.o.Keys, lengthIntents{sheet: s.Sheet, typed: s.typed, take: s.take})
		f.field.Confirm = func() { s.answer(s.practice.Confirm(s.at, key)) }
		return f.object, func(_ *job.Job, is job.Standing) {
			usual := s.practice.UsualMM(s.at, e)
			if f.show(s.at, usual); is == job.Assumed {
				f.field.Set(control.Shown{Value: taped(usual, s.at.Units, math.Floor), Known: control.Assumed, Usual: math.NaN()})
			}
		}
	}
	if n := questionOf(key); n > 0 {
		to := control.NewPress(s.o.Keys, theme.Word("start.to-question", message.No("n", n)), func() { s.toQuestion(n) })
		to.Small = true
		return container.New(upright{}, to), func(*job.Job, job.Standing) {}
	}
	if p, ok := job.Find(key); ok {
		of := func(j *job.Job) float64 { return p.Get(*j) }
		return s.openNumber(key, statedNumber{p.Kind, p.Least, p.Greatest, of, func(v float64) edit.Edit { return edit.Number(p, v) }})
	}
	if list, i, entry, ok := job.InList(key); ok {
		for _, e := range list.Entries() {
			if e.Key != entry {
				continue
			}
			switch {
			case e.Number != nil:
				of := func(j *job.Job) float64 {
					if v := e.Number.At(j, i); v != nil {
						return *v
					}
					return math.NaN()
				}
				return s.openNumber(key, statedNumber{e.Number.Kind, e.Number.Least, e.Number.Greatest, of, func(v float64) edit.Edit { return edit.ItemNumber(list, i, e, &v) }})
			case e.Choice != nil:
				return s.openPick(key, e.Choice.Values, e.Choice.Words, func(j *job.Job) string { return e.Choice.At(j, i) },
					func(v string) edit.Edit { return edit.ItemChoice(list, i, e, v) })
			}
		}
	}
	return gap(1, 1), func(*job.Job, job.Standing) {}
}

// questionOf is the number of the question that an input is the whole answer to; nought for none.
func questionOf(key string) int {
	const room, floor, shower, water = 2, 4, 5, 6
	switch key {
	case job.OutlineKey:
		return room
	case "floor.kind", "floor.joists.directionDeg":
		return floor
	case "shower.wall":
		return shower
	case "waste.exit.kind":
		return water
	}
	return 0
}

// openWide is how wide a field or a list of choices is in the list.
const openWide = 112

// statedNumber is an input that is a number: of what kind, from where to where, what it is in a job, not a
// number where nothing stands in, and the change that states another.
type statedNumber struct {
	kind            unit.Kind
	least, greatest float64
	of              func(*job.Job) float64
	with            func(float64) edit.Edit
}

// openNumber is the field of a number that no question asks for.
func (s *Sheet) openNumber(key string, n statedNumber) (fyne.CanvasObject, func(*job.Job, job.Standing)) {
	said := func(v float64) (question.Sheet, []question.Problem) { return s.practice.Say(s.at, key, n.with(v)) }
	f := control.NewField(s.o.Keys, control.Number{About: theme.Say(s.first.Job.PlaceOf(key), s.at.Units), Kind: n.kind, Units: s.at.Units,
		Least: n.least, Greatest: n.greatest}, fieldWords(n.kind, s.Sheet), control.Intents{
		Preview: func(v float64) {
			if next, problems := said(v); len(problems) == 0 {
				s.previewed(next)
			}
		},
		EndPreview: func() { s.previewed(s.at) },
		Take: func(v float64) error {
			next, problems := said(v)
			if len(problems) > 0 {
				s.previewed(s.at)
				return &message.Error{What: problems[0].Message()}
			}
			s.answer(next, nil)
			return nil
		},
		Confirm: func() { s.answer(s.practice.Confirm(s.at, key)) },
	})
	return container.New(&fieldWidth{openWide}, f), func(j *job.Job, is job.Standing) {
		f.SetUnits(s.at.Units)
		f.Set(control.Shown{Value: n.of(j), Known: knownAs(is), Usual: math.NaN()})
	}
}

// knownAs is how a field shows a standing.
func knownAs(is job.Standing) control.Known {
	switch is {
	case job.Assumed:
		return control.Assumed
	case job.NotKnown:
		return control.NotKnown
	}
	return control.Given
}

// openPick is the list of what an input of a few words may be.
func (s *Sheet) openPick(key string, values []string, words []message.ID, of func(*job.Job) string, with func(string) edit.Edit) (fyne.CanvasObject, func(*job.Job, job.Standing)) {
	var options []control.Option
	for i, v := range values {
		options = append(options, control.Option{ID: v, Text: theme.Word(words[i])})
	}
	p := control.NewPick(s.o.Keys, theme.Say(s.first.Job.PlaceOf(key), s.at.Units), options, of(&s.first.Job), func(v string) {
		s.answer(s.practice.Say(s.at, key, with(v)))
	})
	return container.New(&fieldWidth{openWide}, p), func(j *job.Job, _ job.Standing) { p.Set(options, of(j)) }
}
