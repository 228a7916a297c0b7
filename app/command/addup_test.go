package command

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// told is a length as it is told, read back as a person would: 0 for flush.
func told(t *testing.T, b words.Book, v message.Value, s unit.System) float64 {
	t.Helper()
	text := strings.ReplaceAll(strings.TrimSuffix(strings.TrimPrefix(b.Value(v), "+"), " mm"), "\u2212", "-")
	sign := 1.0
	if cut, negative := strings.CutPrefix(text, "-"); negative {
		text, sign = cut, -1
	}
	mm, err := unit.ParseWithin(text, unit.Length, s, 0, math.Inf(1))
	if err != nil {
		t.Fatalf("%q is no length: %v", text, err)
	}
	return sign * mm
}

// Levels that are told and the steps that are told between them add up: at the rods from whatever heights are
// counted, in the plan, in the section across every step, in the answer and in what is found. The expected
// values are sums of what is told, read back.
func TestLevelsAndStepsAddUp(t *testing.T) {
	packs := demotest.Packs(t)
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	const hairMM = 1e-6
	for _, s := range []unit.System{unit.Metric, unit.Imperial} {
		book := shelf.Book(words.British, s, func(m message.Message) { t.Errorf("no words for %s", m.ID) })
		for _, d := range demos {
			d.Job.Units = s
			r := geometry.Evaluate(d.Job, packs[d.Job.Region])
			say := func(v message.Value) float64 { t.Helper(); return told(t, book, v, s) }
			at := func(mm float64) float64 { t.Helper(); return say(message.Level{MM: mm}) }
			adds := func(where string, low, step, high float64) {
				t.Helper()
				if math.Abs(low+step-high) > hairMM {
					t.Errorf("%s, %s, %s: %v and %v are told to make %v", d.File, s, where, low, step, high)
				}
			}
			rods, steps := r.Rods()
			for _, datum := range r.Datums() {
				read := func(mm float64) float64 {
					t.Helper()
					m, err := r.Read(datum, mm)
					if err != nil {
						t.Fatal(err)
					}
					v := say(m.Args[0].Value)
					if m.ID == "datum.down" {
						return -v
					}
					return v
				}
				for _, step := range steps {
					high := say(step.High("mm").Value)
					if step.MM < 0 {
						high = -high
					}
					adds(fmt.Sprintf("rods from %s", datum.Of), read(rods[step.From].LevelMM), high, read(rods[step.To].LevelMM))
				}
			}
			for _, row := range r.Schedule {
				if row.Kind() == buildup.IsStep {
					adds("schedule", at(row.Rise.FromMM), say(row.Said()), at(row.Rise.ToMM))
				}
			}
			for _, c := range r.Pack.Checks(r.Measured) {
				rise, value := c.Measurement.Rise, c.Value()
				if _, broken := value.(message.Apart); rise == (message.Rise{}) || broken {
					continue // it may be told finer than it is read, beside its limit
				}
				if got, want := say(value), math.Abs(at(rise.ToMM)-at(rise.FromMM)); math.Abs(got-want) > hairMM {
					t.Errorf("%s, %s: %s is told as %v between %v and %v", d.File, s, c.Rule.ID, got, at(rise.FromMM), at(rise.ToMM))
				}
			}
			sections(t, d.File, r, at, say, adds)
		}
	}
}

// sections holds the dimensions of steps in the sections across them to the levels that are marked beside them.
func sections(t *testing.T, file string, r geometry.Result, at func(float64) float64, say func(message.Value) float64, adds func(string, float64, float64, float64)) {
	t.Helper()
	for _, c := range section.AcrossSteps(r) {
		d, err := section.Through(r, c, buildup.StageTile)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, m := range d.Dimensions {
			if !m.Step {
				continue
			}
			low, high := math.Min(m.From.Y(), m.To.Y()), math.Max(m.From.Y(), m.To.Y())
			adds("dimension", at(low), say(m.Text.Args[0].Value), at(high))
			// The floors on both its sides, where they are marked.
			for _, mark := range d.Marks {
				for _, end := range [2]float64{low, high} {
					const nearMM = 3
					if off := math.Abs(mark.LevelMM - end); off > 1e-6 && off < nearMM && at(mark.LevelMM) != at(end) && c.Step.Of == rule.OpenEdge && mark.Of == section.MarkRoomFloor {
						t.Errorf("%s, across %v: a floor is marked %v and its step begins at %v", file, c.Step, at(mark.LevelMM), at(end))
					}
				}
			}
		}
	}
}
