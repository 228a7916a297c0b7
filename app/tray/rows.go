package tray

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// uses tells whether an input is there for a job.
func uses(i job.Input) func(job.Job) bool { return func(j job.Job) bool { return i.Uses(&j) } }

// rowsOf are the fields of an input of a station.
func (t *Tray) rowsOf(i job.Input, s *station) []Row {
	switch {
	case i.Number != nil:
		return []Row{NewNumberRow(t.number(*i.Number), t.asks, t.keys, nil)}
	case i.Maybe != nil:
		return []Row{t.optional(i)}
	case i.Choice != nil:
		return []Row{t.choice(i)}
	case i.Flag != nil:
		return []Row{newFlagRow(i.Key, i.Label(), func(j job.Job) bool { return *i.Flag(&j) },
			func(on bool) edit.Edit { return edit.Flag(i, on) }, uses(i), t.asks, t.keys)}
	case i.Wall != nil:
		return []Row{t.wall(i.Key, i.Label(), func(j job.Job) int { return *i.Wall(&j) },
			func(wall int) edit.Edit { return edit.AtWall(i, wall) }, uses(i))}
	case i.Things != nil:
		return []Row{t.things(i, func() bool { return s.less || !i.First })}
	case i.Table != nil:
		return []Row{t.table(i, func() bool { return s.less })}
	}
	return []Row{t.numbers(i)}
}

// number is the field of a number that parts may fill.
func (t *Tray) number(p job.Parameter) Number {
	n := NumberOf(p)
	n.Own = func(j job.Job) message.Message {
		if asSold, own := t.sold.Own(p); own {
			return p.OwnMessage(j, asSold)
		}
		return message.Message{}
	}
	return n
}

// choice is a field to choose one of a few values.
func (t *Tray) choice(i job.Input) *ChoiceRow {
	var try func()
	if i.Choice.Parts != nil && t.asks.Try != nil {
		try = func() { t.asks.Try(i) }
	}
	return NewChoiceRow(Choice{Key: i.Key, Try: try, Label: i.Label(), Uses: uses(i),
		Options: func(j job.Job) []job.Option { return i.Choice.Options(&j, &t.shelf) },
		Get:     func(j job.Job) string { return i.Choice.At(&j) },
		Set:     func(v string) edit.Edit { return edit.Choose(i, v, t.asks.Outside()) },
		Few:     t.few(i)}, t.asks, t.keys)
}

// few tells whether all values of an input can stand beside each other.
func (t *Tray) few(i job.Input) bool {
	if i.Choice.Parts != nil || i.Key == job.ExitStackKey || i.Key == job.PipeSizeKey {
		return false // who knows how many
	}
	const mostRunes = 24 // of all words in the width of the tray
	runes := 0
	j := t.now
	options := i.Choice.Options(&j, &t.shelf)
	for _, o := range options {
		runes = max(runes, len(options)*utf8.RuneCountInString(theme.Say(o.Word, j.Units)))
	}
	return runes <= mostRunes
}

// wall chooses one of the room's walls.
func (t *Tray) wall(key string, label message.ID, get func(job.Job) int, set func(int) edit.Edit, uses func(job.Job) bool) *ChoiceRow {
	options := func(j job.Job) []job.Option {
		var out []job.Option
		for _, i := range j.Room.InOrder() {
			out = append(out, job.Option{Value: strconv.Itoa(i), Word: j.Room.Called(i)})
		}
		return out
	}
	return NewChoiceRow(Choice{Key: key, Label: label, Options: options, Uses: uses,
		Get: func(j job.Job) string { return strconv.Itoa(get(j)) },
		Set: func(v string) edit.Edit {
			i, _ := strconv.Atoi(v) // as it was written above
			return set(i)
		}}, t.asks, t.keys)
}

// optional makes a field for a length that may be absent.
func (t *Tray) optional(i job.Input) *NumberRow {
	return NewNumberRow(Number{Key: i.Key, Label: i.Label(), Kind: i.Maybe.Kind, Step: 1,
		Least: i.Maybe.Least, Greatest: i.Maybe.Greatest, Uses: uses(i),
		Get: func(j job.Job) float64 {
			if mm, ok := i.Maybe.At(&j); ok {
				return mm
			}
			return nan()
		},
		Set:   func(v float64) edit.Edit { return edit.Perhaps(i, &v) },
		Clear: func() edit.Edit { return edit.Perhaps(i, nil) },
		Standing: func() string {
			if i.Key == job.ExitInvertKey {
				return job.ExitLevelKey // which stands in the file as one
			}
			return i.Key
		},
		WorkedOut: func() float64 {
			if i.Key == job.ExitInvertKey {
				return unit.AsRead(t.asks.Outside().ExitMM, t.now.Units)
			}
			return nan()
		},
		Aimed: func() float64 { return t.asks.Aimed(i.Key) }}, t.asks, t.keys, nil)
}

// numbers makes a field for a list of numbers on one line.
func (t *Tray) numbers(i job.Input) *TextRow {
	n := *i.Numbers
	columns := slices.Repeat([]unit.Column{n.Column}, n.Most)
	written := func(v []float64, u unit.System) string { return joinNumbers(v, n.Kind, u) }
	r := NewTextRow(i.Label(), func(u unit.System) string { return written(n.Hint, u) }, control.NewEntry(t.keys), t.asks,
		func(j job.Job) string { return written(n.Get(&j), j.Units) },
		func(j job.Job, s string) (edit.Edit, error) {
			v, err := unit.ParseColumns(s, columns, n.Fewest, j.Units)
			return edit.Numbers(i, v), err
		})
	r.Key, r.uses = i.Key, uses(i)
	if job.FilledByParts(i.Key) {
		r.filledByParts(func() bool { return t.sold.OwnList(i.Key) })
	}
	return r
}

// joinNumbers writes numbers as unit.ParseColumns reads them.
func joinNumbers(vs []float64, kind unit.Kind, u unit.System) string {
	var parts []string
	for _, v := range vs {
		parts = append(parts, unit.Editable(v, kind, u))
	}
	return strings.Join(parts, ", ")
}
