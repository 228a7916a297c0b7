package geometry_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// Trap and pipe are held against what lies under the shower: a slab that is set down, a
// finish that stays there, courses under the base. The starting job's base is bare at 72,
// its trap touching the slab at 0 (TestStackByHand); whatever the ground is moved by, a base
// that much higher touches it again, and one a millimetre lower is a millimetre into it.
func TestTrapAndPipeOnWhatLiesUnderTheBase(t *testing.T) {
	pack := demotest.Packs(t)["UK"]
	const bareMM, adhesiveMM = 72.0, 3.0
	for name, c := range map[string]struct {
		change func(*job.Job)
		byMM   float64
	}{
		"as found": {func(*job.Job) {}, 0},
		"set down": {func(j *job.Job) { j.Floor.SetDownMM = 100 }, -100},
		"a screed stays": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingScreed, ThicknessMM: 65, Out: job.OutNowhere}}
		}, 65},
		"a screed is out": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingScreed, ThicknessMM: 65, Out: job.OutShower}}
		}, 0},
		"levelled": {func(j *job.Job) {
			j.Base.Under = []job.Course{{Kind: job.CourseLevelling, Layer: job.Layer{ThicknessMM: 8}}}
		}, 8},
		"set down, levelled": {func(j *job.Job) {
			j.Floor.SetDownMM = 60
			j.Base.Under = []job.Course{{Kind: job.CourseLevelling, Layer: job.Layer{ThicknessMM: 8}}}
		}, -52},
	} {
		j := job.New()
		c.change(&j)
		r := geometry.Evaluate(j, pack)
		if got, want := r.Raises.Bare.TopMM, bareMM+c.byMM; !(math.Abs(got-want) <= 1e-9) {
			t.Errorf("%s: bare at %v, want %v", name, got, want)
		}
		for _, low := range []float64{0, 1} {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, bareMM-adhesiveMM-low
			r := geometry.Evaluate(j, pack)
			got := 0.0
			for _, f := range r.Findings {
				if f.Rule.ID == "trap-floor" {
					got = f.Measurement.Value
				}
			}
			if !(math.Abs(got-low) <= 1e-9) {
				t.Errorf("%s, %v lower: the trap is %v in the floor", name, low, got)
			}
		}
	}
}
