package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// listRow makes a field of several lines for a list of the job. Read changes a
// job of its own, or says what is wrong with which line.
func (in *inputs) listRow(label, hint string, lines int, write func(job.Job) string, read func(*job.Job, string) error) *textRow {
	e := newLinesEntry(in.keys, lines)
	if lines == 1 {
		e = newEntry(in.keys)
	}
	return newTextRow(label, hint, e, in.desk, write, func(j job.Job, s string) (edit.Edit, error) {
		// Read twice: once to see whether it can be, and when the edit is made, of
		// the job as it then is.
		if err := read(&j, s); err != nil {
			return edit.Edit{}, err
		}
		return edit.Of(label, func(j *job.Job) { _ = read(j, s) }), nil
	})
}

// numbersRow edits a list of numbers: none, or at least as many as given.
func (in *inputs) numbersRow(label, hint string, lines, least int, columns []unit.Column, get func(job.Job) []float64, set func(*job.Job, []float64)) row {
	return in.listRow(label, hint, lines, func(j job.Job) string { return joinNumbers(get(j), columns, j.Units) },
		func(j *job.Job, s string) error {
			v, err := unit.ParseColumns(s, columns, least, j.Units)
			set(j, v)
			return err
		})
}

// pointColumns are the two numbers of a place in plan.
func pointColumns() []unit.Column {
	return []unit.Column{unit.Any(unit.Length), unit.Any(unit.Length)}
}

// linesRow edits a list with one item of numbers a line; of its columns those
// past the first least may be left out.
func (in *inputs) linesRow(label, hint string, lines, least int, columns []unit.Column, write func(job.Job) [][]float64, read func(*job.Job, [][]float64) error) *textRow {
	return in.listRow(label, hint, lines, func(j job.Job) string {
		var out []string
		for _, item := range write(j) {
			out = append(out, joinNumbers(item, columns, j.Units))
		}
		return strings.Join(out, "\n")
	}, func(j *job.Job, s string) error {
		var items [][]float64
		for n, l := range strings.Split(s, "\n") {
			if strings.TrimSpace(l) == "" {
				continue
			}
			v, err := unit.ParseColumns(strings.ReplaceAll(l, "±", " "), columns, least, j.Units)
			if err != nil {
				return fmt.Errorf("line %d: %w", n+1, err)
			}
			if len(v) > 0 { // more than a separator
				items = append(items, v)
			}
		}
		return read(j, items)
	})
}

func (in *inputs) spotLevels() row {
	return in.linesRow("Laser levels: x, y, level, ±", "300, 400, 2.5, 1", 4, 3,
		append(pointColumns(), unit.Column{Kind: unit.Length, Least: -500, Greatest: 500}, unit.Column{Kind: unit.Length, Greatest: 100}),
		func(j job.Job) [][]float64 {
			var out [][]float64
			for _, s := range j.SpotLevels {
				out = append(out, []float64{s.At.X(), s.At.Y(), s.LevelMM, s.ToleranceMM})
			}
			return out
		}, func(j *job.Job, items [][]float64) error {
			j.SpotLevels = nil
			for _, v := range items {
				// A level without its ± is as good as a careful laser reading.
				s := job.SpotLevel{At: plan.Point{v[0], v[1]}, LevelMM: v[2], ToleranceMM: job.UsualReadingMM}
				if len(v) > 3 {
					s.ToleranceMM = v[3]
				}
				j.SpotLevels = append(j.SpotLevels, s)
			}
			return nil
		})
}

// capacityCurve edits further points of the trap's data sheet.
func (in *inputs) capacityCurve() row {
	return in.linesRow("Trap data: water over it, flow", "10, 24", 2, 2,
		[]unit.Column{{Kind: unit.Length, Greatest: 500}, {Kind: unit.Flow, Greatest: 20}},
		func(j job.Job) [][]float64 {
			var out [][]float64
			for _, p := range j.Drain.CapacityCurve {
				out = append(out, []float64{p.HeadMM, p.FlowLPS})
			}
			return out
		}, func(j *job.Job, items [][]float64) error {
			j.Drain.CapacityCurve = nil
			for _, v := range items {
				j.Drain.CapacityCurve = append(j.Drain.CapacityCurve, job.HeadFlow{HeadMM: v[0], FlowLPS: v[1]})
			}
			return nil
		})
}

func pointsOf(ps []plan.Point) [][]float64 {
	var out [][]float64
	for _, p := range ps {
		out = append(out, []float64{p.X(), p.Y()})
	}
	return out
}

func (in *inputs) waypoints() row {
	return in.linesRow("Turns of the run: x, y (empty: simplest run)", "700, 1200", 3, 2, pointColumns(),
		func(j job.Job) [][]float64 { return pointsOf(j.Waste.Waypoints) },
		func(j *job.Job, items [][]float64) error {
			j.Waste.Waypoints = nil
			for _, v := range items {
				j.Waste.Waypoints = append(j.Waste.Waypoints, plan.Point{v[0], v[1]})
			}
			return nil
		})
}

func (in *inputs) exitPoint() row {
	return in.linesRow("Exit in plan, when not through a wall: x, y", "300, 400", 1, 2, pointColumns(),
		func(j job.Job) [][]float64 {
			if j.Waste.Exit.Kind == job.ExitWall {
				return nil
			}
			return pointsOf([]plan.Point{j.Waste.Exit.At})
		},
		func(j *job.Job, items [][]float64) error {
			if j.Waste.Exit.Kind == job.ExitWall {
				return nil
			}
			if len(items) != 1 {
				return errors.New("give one point as x, y")
			}
			j.Waste.Exit.At = plan.Point{items[0][0], items[0][1]}
			return nil
		})
}

// fittings edits the in-line fittings as words, one a line.
func (in *inputs) fittings() row {
	return in.listRow("In-line fittings", "reducer at 300 to 43/39 (reversed)\nextender at 400 long 120 fall 3° (reversed)", 2,
		func(j job.Job) string {
			var out []string
			for _, f := range j.Waste.Fittings {
				out = append(out, writeFitting(f, j.Units))
			}
			return strings.Join(out, "\n")
		}, func(j *job.Job, s string) error {
			j.Waste.Fittings = nil
			for n, l := range strings.Split(s, "\n") {
				if strings.TrimSpace(l) == "" {
					continue
				}
				f, err := readFitting(l, j.Units)
				if err != nil {
					return fmt.Errorf("line %d: %w", n+1, err)
				}
				j.Waste.Fittings = append(j.Waste.Fittings, f)
			}
			return nil
		})
}

func writeFitting(f job.Fitting, u unit.System) string {
	n := func(v float64) string { return unit.Editable(v, unit.Length, u) }
	s := ""
	if f.Kind == job.FittingReducer {
		s = fmt.Sprintf("reducer at %s long %s to %s/%s", n(f.AtMM), n(f.LengthMM), n(f.OutsideDiameterMM), n(f.BoreMM))
	} else {
		s = fmt.Sprintf("extender at %s long %s fall %s", n(f.AtMM), n(f.LengthMM), unit.Editable(f.Slope, unit.Slope, u))
	}
	if f.Reversed {
		s += " reversed"
	}
	return s
}

// readFitting reads what writeFitting writes, with lengths left out taken as
// usual: a reducer 60 mm, an extender 120 mm at 3°. Common practice, no source.
func readFitting(l string, u unit.System) (job.Fitting, error) {
	f := job.Fitting{LengthMM: job.ReducerLengthMM}
	l = strings.ToLower(strings.NewReplacer("(", " ", ")", " ").Replace(l))
	if strings.Contains(l, "reversed") {
		f.Reversed = true
		l = strings.ReplaceAll(l, "reversed", "")
	}
	part := func(word string) (string, bool) {
		_, rest, ok := strings.Cut(l, " "+word+" ")
		for _, next := range []string{" at ", " long ", " to ", " fall "} {
			if before, _, found := strings.Cut(rest, next); found {
				rest = before
			}
		}
		return strings.TrimSpace(rest), ok
	}
	length := func(word string, to *float64, least, greatest float64, must bool) error {
		s, ok := part(word)
		if !ok {
			if must {
				return fmt.Errorf("say where: for example “at 300”")
			}
			return nil
		}
		v, err := unit.ParseWithin(s, unit.Length, u, least, greatest)
		if err != nil {
			return fmt.Errorf("“%s %s”: %w", word, s, err)
		}
		*to = v
		return nil
	}
	switch {
	case strings.HasPrefix(strings.TrimSpace(l), "reducer"):
		f.Kind = job.FittingReducer
		sizes, _ := part("to")
		var err error
		if f.OutsideDiameterMM, f.BoreMM, err = readPipe(sizes, u); err != nil {
			return f, err
		}
		f.NominalMM = math.Round(f.OutsideDiameterMM/10) * 10
	case strings.HasPrefix(strings.TrimSpace(l), "extender"):
		usual := job.UsualExtender(0)
		f.Kind, f.LengthMM, f.Slope = usual.Kind, usual.LengthMM, usual.Slope
		if s, ok := part("fall"); ok {
			v, err := unit.ParseWithin(s, unit.Slope, u, 0, 1)
			if err != nil {
				return f, fmt.Errorf("“fall %s”: %w", s, err)
			}
			f.Slope = v
		}
	default:
		return f, errors.New("begin with reducer or extender")
	}
	if err := length("long", &f.LengthMM, 1, 2000, false); err != nil {
		return f, err
	}
	return f, length("at", &f.AtMM, 0, math.Inf(1), true)
}

// readPipe reads a pipe's outside diameter and bore with a stroke between.
// Fractions of an inch have strokes too: it is the one with a sound size on
// either side.
func readPipe(sizes string, u unit.System) (outsideMM, boreMM float64, err error) {
	found := 0
	for i, r := range sizes {
		if r != '/' {
			continue
		}
		outside, wrong := unit.ParseWithin(sizes[:i], unit.Length, u, 20, 250)
		bore, wrongBore := unit.ParseWithin(sizes[i+1:], unit.Length, u, 10, 240)
		at := sizes[:i]
		if wrong == nil {
			wrong, at = wrongBore, sizes[i+1:]
		}
		if wrong == nil {
			outsideMM, boreMM = outside, bore
			found++
		} else if strings.Count(sizes, "/") == 1 {
			return 0, 0, fmt.Errorf("“%s”: %w", at, wrong)
		}
	}
	if found != 1 {
		return 0, 0, errors.New("say the pipe after it as outside/bore: for example “to 43/39”")
	}
	return outsideMM, boreMM, nil
}
