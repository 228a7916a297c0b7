package measure_test

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// sameMeasured tells whether two lists of measurements are the same in all they say.
func sameMeasured(a, b []rule.Measurement) bool {
	return slices.EqualFunc(a, b, func(x, y rule.Measurement) bool {
		return x.Quantity == y.Quantity && x.Subject == y.Subject && (x.Value == y.Value || math.IsNaN(x.Value) && math.IsNaN(y.Value)) &&
			x.At == y.At && x.NeedsMM == y.NeedsMM && x.HasMM == y.HasMM && slices.Equal(x.Tags, y.Tags) && len(x.Facts) == 1 && x.Facts["nominalMM"] == y.Facts["nominalMM"]
	})
}

// One measurer that takes up job after job says of each what a new one says of it,
// whether the job before was the same in plan, at other levels, or another; and says
// it again when it is asked again.
func TestOneMeasurerServesManyJobs(t *testing.T) {
	packs := demotest.Packs(t)
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		var m measure.Measurer
		var l stage.Levelled
		for range 6 {
			if again := rapid.Bool().Draw(t, "the same plan"); again && len(l.Heights.Constraints) > 0 {
				k := l.Settled.Clone()
				k.Base.Height, k.Base.HeightMM = job.HeightChosen, float64(rapid.IntRange(-60, 150).Draw(t, "height"))
				k.Waste.Gradient = float64(rapid.IntRange(-5, 100).Draw(t, "fall")) / 1000
				l = l.Apart()
				l.Settled = k
				l.Relevel()
			} else {
				j := rapid.SampledFrom(demos).Draw(t, "demo").Job.Clone()
				if rapid.Bool().Draw(t, "any") {
					j = demotest.AnyJob(t)
				}
				// What only the circumstances tell apart.
				if j.Accessible = rapid.Bool().Draw(t, "accessible"); rapid.Bool().Draw(t, "ventilated") {
					j.Waste.Vent = &job.Vent{AtMM: rapid.Float64Range(0, 2000).Draw(t, "vent"), NominalMM: 32}
				}
				var sh plan.Shaper
				if l = stage.Place(j, packs["UK"], &sh).Level(); sh.Err() != nil {
					t.Fatal(sh.Err())
				}
			}
			m.Begin(l)
			var fresh measure.Measurer
			fresh.Begin(l)
			want := slices.Clone(fresh.Levels())
			for range 2 {
				if got := m.Levels(); !sameMeasured(got, want) {
					t.Fatalf("a used measurer says\n%v,\na new one\n%v", got, want)
				}
			}
			if got, want := m.Crossings(), l.Crossings(); len(got) != len(want) {
				t.Fatalf("%d cuts, want %d", len(got), len(want))
			}
		}
	})
}

// Ramps begin and end elsewhere at other heights: a measurer that served one of them says of the next what a new one says,
// in front of a doorway that a ramp ends at as well.
func TestOneMeasurerServesOtherRamps(t *testing.T) {
	said := 0
	for _, d := range demotest.Rooms(t) {
		for _, atDoor := range [2]bool{false, true} {
			j := d.Job.Clone()
			j.Room.Edge, j.Base.Height = job.EdgeRamp, job.HeightChosen
			if atDoor {
				j.Shower.Wall, j.Room.Doorways[0].Wall, j.Room.Doorways[0].OffsetMM = 2, 0, 500
			}
			if len(j.Validate()) > 0 {
				continue
			}
			said++
			l := levelled(t, j)
			var m measure.Measurer
			for _, mm := range [...]float64{150, 0, 60, 120} {
				l = l.Apart()
				l.Settled.Base.HeightMM = mm
				l.Relevel()
				m.Begin(l)
				var fresh measure.Measurer
				fresh.Begin(l)
				if got, want := m.Levels(), fresh.Levels(); !sameMeasured(got, want) {
					t.Errorf("%s, %v mm: a used measurer says\n%v,\na new one\n%v", d.File, mm, got, want)
				}
			}
		}
	}
	if said < 8 {
		t.Errorf("only %d jobs mean something with ramps", said)
	}
}

// The parts of the measurements are those of the levels, in other shares; each can be
// asked for by itself and more than once.
func TestPartsOfTheMeasurements(t *testing.T) {
	for _, d := range demotest.Rooms(t) {
		l := levelled(t, d.Job)
		var m measure.Measurer
		m.Begin(l)
		whole := slices.Clone(m.Levels())
		run, beside, clashes := slices.Clone(m.Run()), slices.Clone(m.BesidesRun()), slices.Clone(m.Clashes())
		// The falls, steps and drain are left, which no run changes.
		left := slices.DeleteFunc(slices.Clone(whole), func(x rule.Measurement) bool {
			return slices.ContainsFunc(slices.Concat(run, beside, clashes), func(y rule.Measurement) bool { return x.ID() == y.ID() })
		})
		for _, x := range left {
			switch x.Quantity {
			case "floor.fall", "floor.out-of-level", "former.thin-by", "shower.least-side", "shower.longest-side", "shower.area", "step.edge", "step.ramp", "step.door", "door.leaf-gap",
				"cover.short-by", "cover.proud-by", "drain.strip", "drain.under-wall":
			default:
				t.Errorf("%s: %s of %s is in none of the parts", d.File, x.Quantity, x.Subject)
			}
		}
		if len(run)+len(beside)+len(clashes)+len(left) != len(whole) || len(run) < 8 || len(beside) < 6 || len(left) < 8 {
			t.Errorf("%s: %d of the run, %d beside it, %d clashes and %d more make %d", d.File, len(run), len(beside), len(clashes), len(left), len(whole))
		}
		for _, x := range m.Lengths() {
			if x.At != (mgl64.Vec3{}) {
				t.Errorf("%s: %s has a place", d.File, x.Quantity)
			}
			if !slices.ContainsFunc(run, func(y rule.Measurement) bool { return x.ID() == y.ID() && x.Value == y.Value }) {
				t.Errorf("%s: %s is %v, and not so in the run", d.File, x.Quantity, x.Value)
			}
		}
		if n := len(m.Lengths()); n < 2 {
			t.Errorf("%s: the run as a whole has %d measurements", d.File, n)
		}
	}
}

// Without places the run's measurements have none and are the same otherwise; with
// them again, they have theirs again.
func TestMeasurementsWithoutPlaces(t *testing.T) {
	l := levelled(t, demotest.Rooms(t)[1].Job)
	var m measure.Measurer
	m.Begin(l)
	with := slices.Clone(m.Run())
	m.WithPlaces(false)
	without := slices.Clone(m.Run())
	m.WithPlaces(true)
	if !sameMeasured(with, m.Run()) {
		t.Error("asked for again, places are not what they were")
	}
	for i := range without {
		if without[i].At != (mgl64.Vec3{}) || with[i].At == (mgl64.Vec3{}) {
			t.Errorf("%s of %s lies at %v, without places at %v", with[i].Quantity, with[i].Subject, with[i].At, without[i].At)
		}
		with[i].At = mgl64.Vec3{}
	}
	if !sameMeasured(with, without) {
		t.Errorf("without places there are other measurements: %v, %v", without, with)
	}
}
