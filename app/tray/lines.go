package tray

import (
	"math"
	"strings"

	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// listRow makes a field of several lines for a list of the job. Read changes a
// job of its own, or says what is wrong with which line.
func (t *Tray) listRow(label message.ID, hint func(unit.System) string, lines int,
	write func(job.Job) string, read func(*job.Job, string) error) *TextRow {
	e := control.NewLinesEntry(t.keys, lines)
	if lines == 1 {
		e = control.NewEntry(t.keys)
	}
	return NewTextRow(label, hint, e, t.asks, write, func(j job.Job, s string) (edit.Edit, error) {
		// Read twice: once to see whether it can be, and when the edit is made, of
		// the job as it then is.
		if err := read(&j, s); err != nil {
			return edit.Edit{}, err
		}
		return edit.Of(message.Of(label), func(j *job.Job) { _ = read(j, s) }), nil
	})
}

// numbersRow edits a list of numbers: none, or at least as many as given.
func (t *Tray) numbersRow(label message.ID, hint []float64, lines, least int, columns []unit.Column,
	get func(job.Job) []float64, set func(*job.Job, []float64)) *TextRow {
	shown := func(u unit.System) string { return joinNumbers(hint, columns, u) }
	return t.listRow(label, shown, lines, func(j job.Job) string { return joinNumbers(get(j), columns, j.Units) },
		func(j *job.Job, s string) error {
			v, err := unit.ParseColumns(s, columns, least, j.Units)
			set(j, v)
			return err
		})
}

// linesRow edits a list with one item of numbers a line; of its columns those
// past the first least may be left out.
func (t *Tray) linesRow(label message.ID, hint [][]float64, lines, least int, columns []unit.Column,
	write func(job.Job) [][]float64, read func(*job.Job, [][]float64) error) *TextRow {
	written := func(items [][]float64, u unit.System) string {
		var out []string
		for _, item := range items {
			out = append(out, joinNumbers(item, columns, u))
		}
		return strings.Join(out, "\n")
	}
	shown := func(u unit.System) string { return written(hint, u) }
	return t.listRow(label, shown, lines, func(j job.Job) string { return written(write(j), j.Units) }, func(j *job.Job, s string) error {
		var items [][]float64
		for n, l := range strings.Split(s, "\n") {
			if strings.TrimSpace(l) == "" {
				continue
			}
			v, err := unit.ParseColumns(strings.ReplaceAll(l, "±", " "), columns, least, j.Units)
			if err != nil {
				return message.Wrap(err, "input.line", message.No("n", n+1))
			}
			if len(v) > 0 { // more than a separator
				items = append(items, v)
			}
		}
		return read(j, items)
	})
}

// fittingWords are the words of a line that says a fitting, as the catalogue has
// them, in lower case.
type fittingWords struct{ reducer, adaptor, falling, at, long, to, fall, reversed string }

func fittingWordsOf(b words.Book) fittingWords {
	of := func(id message.ID) string { return strings.ToLower(b.Text(id)) }
	return fittingWords{
		reducer:  of("fitting-line.reducer"),
		falling:  of("fitting-line.falling-piece"),
		adaptor:  of("fitting-line.adaptor"),
		at:       of("fitting-line.at"),
		long:     of("fitting-line.long"),
		to:       of("fitting-line.to"),
		fall:     of("fitting-line.fall"),
		reversed: of("fitting-line.reversed"),
	}
}

// fittings edits the in-line fittings as words, one a line.
func (t *Tray) fittings(i job.Input) *TextRow {
	hint := func(u unit.System) string {
		start := job.New()
		reducer, _ := start.ReducerAt(300)
		falling := job.UsualFallingPiece(400)
		falling.Reversed = true
		return writeFitting(reducer, u, theme.Book()) + "\n" + writeFitting(falling, u, theme.Book())
	}
	r := t.listRow(i.Label(), hint, 2,
		func(j job.Job) string {
			var out []string
			for _, f := range j.Waste.Fittings {
				out = append(out, writeFitting(f, j.Units, theme.Book()))
			}
			return strings.Join(out, "\n")
		}, func(j *job.Job, s string) error {
			j.Waste.Fittings = nil
			for n, l := range strings.Split(s, "\n") {
				if strings.TrimSpace(l) == "" {
					continue
				}
				f, err := readFitting(l, j.Units, theme.Book())
				if err != nil {
					return message.Wrap(err, "input.line", message.No("n", n+1))
				}
				j.Waste.Fittings = append(j.Waste.Fittings, f)
			}
			return nil
		})
	r.Key = i.Key
	return r
}

// writeFitting says a fitting on one line, in a book's words.
func writeFitting(f job.Fitting, u unit.System, b words.Book) string {
	n := func(v float64) string { return unit.Editable(v, unit.Length, u) }
	w := fittingWordsOf(b)
	kind := w.reducer
	if f.Kind == job.FittingAdaptor {
		kind = w.adaptor
	}
	parts := []string{kind, w.at, n(f.AtMM), w.long, n(f.LengthMM), w.to, n(f.OutsideDiameterMM) + "/" + n(f.BoreMM)}
	if f.Kind == job.FittingFallingPiece {
		parts = []string{w.falling, w.at, n(f.AtMM), w.long, n(f.LengthMM), w.fall, unit.Editable(f.Slope, unit.Slope, u)}
	}
	if f.Reversed {
		parts = append(parts, w.reversed)
	}
	return strings.Join(parts, " ")
}

// fittingLine is a line that says a fitting, taken apart by its words.
type fittingLine struct {
	fittingWords
	line  string
	units unit.System
}

// part is what follows a word, up to the next.
func (l fittingLine) part(word string) (string, bool) {
	_, rest, ok := strings.Cut(l.line, " "+word+" ")
	for _, next := range []string{l.at, l.long, l.to, l.fall} {
		if before, _, found := strings.Cut(rest, " "+next+" "); found {
			rest = before
		}
	}
	return strings.TrimSpace(rest), ok
}

// number reads what follows a word, if the word is there.
func (l fittingLine) number(word string, to *float64, kind unit.Kind, least, greatest float64) error {
	s, ok := l.part(word)
	if !ok {
		return nil
	}
	v, err := unit.ParseWithin(s, kind, l.units, least, greatest)
	if err != nil {
		return message.Wrap(err, "input.part", message.Name("typed", word+" "+s))
	}
	*to = v
	return nil
}

// readFitting reads what writeFitting writes, with lengths left out taken as
// usual: a reducer 60 mm, a falling piece 120 mm at 3°. Common practice, no source.
func readFitting(line string, u unit.System, b words.Book) (job.Fitting, error) {
	f := job.Fitting{LengthMM: job.ReducerLengthMM}
	l := fittingLine{fittingWordsOf(b), strings.ToLower(strings.NewReplacer("(", " ", ")", " ").Replace(line)), u}
	if strings.Contains(l.line, l.reversed) {
		f.Reversed = true
		l.line = strings.ReplaceAll(l.line, l.reversed, "")
	}
	switch kind := strings.TrimSpace(l.line); {
	case strings.HasPrefix(kind, l.reducer), strings.HasPrefix(kind, l.adaptor):
		f.Kind = job.FittingReducer
		if strings.HasPrefix(kind, l.adaptor) {
			f.Kind = job.FittingAdaptor
		}
		sizes, _ := l.part(l.to)
		var err error
		if f.OutsideDiameterMM, f.BoreMM, err = readPipe(sizes, l); err != nil {
			return f, err
		}
		f.NominalMM = math.Round(f.OutsideDiameterMM/10) * 10
		f.Pipe = f.Pipe.WithUsualFittings()
	case strings.HasPrefix(kind, l.falling):
		usual := job.UsualFallingPiece(0)
		f.Kind, f.LengthMM, f.Slope = usual.Kind, usual.LengthMM, usual.Slope
		if err := l.number(l.fall, &f.Slope, unit.Slope, 0, 1); err != nil {
			return f, err
		}
	default:
		return f, message.Fail("input.fitting-kind",
			message.Name("reducer", l.reducer), message.Name("falling", l.falling), message.Name("adaptor", l.adaptor))
	}
	if err := l.number(l.long, &f.LengthMM, unit.Length, 1, 2000); err != nil {
		return f, err
	}
	if _, ok := l.part(l.at); !ok {
		return f, message.Fail("input.fitting-where", message.Name("example", l.at+" "+unit.Editable(300, unit.Length, u)))
	}
	return f, l.number(l.at, &f.AtMM, unit.Length, 0, math.Inf(1))
}

// readPipe reads a pipe's outside diameter and bore with a stroke between.
// Fractions of an inch have strokes too: it is the one with a sound size on
// either side.
func readPipe(sizes string, l fittingLine) (outsideMM, boreMM float64, err error) {
	found := 0
	for i, r := range sizes {
		if r != '/' {
			continue
		}
		outside, wrong := unit.ParseWithin(sizes[:i], unit.Length, l.units, 20, 250)
		bore, wrongBore := unit.ParseWithin(sizes[i+1:], unit.Length, l.units, 10, 240)
		at := sizes[:i]
		if wrong == nil {
			wrong, at = wrongBore, sizes[i+1:]
		}
		if wrong == nil {
			outsideMM, boreMM = outside, bore
			found++
		} else if strings.Count(sizes, "/") == 1 {
			return 0, 0, message.Wrap(wrong, "input.part", message.Name("typed", at))
		}
	}
	if found != 1 {
		example := l.to + " " + unit.Editable(43, unit.Length, l.units) + "/" + unit.Editable(39, unit.Length, l.units)
		return 0, 0, message.Fail("input.fitting-pipe", message.Name("example", example))
	}
	return outsideMM, boreMM, nil
}
