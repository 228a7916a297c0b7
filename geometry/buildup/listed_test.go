package buildup_test

import (
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

func course(k job.CourseKind, mm float64) job.Course {
	return job.Course{Kind: k, Layer: job.Layer{ThicknessMM: mm}}
}

func found(k job.ExistingKind, mm float64, out job.TakenOut) job.Existing {
	return job.Existing{Kind: k, ThicknessMM: mm, Out: out}
}

// existing states what was found on the floor.
func existing(of ...job.Existing) func(*job.Job) {
	return func(j *job.Job) { j.Floor.Existing = of }
}

// screedOnInsulation lies under the base.
func screedOnInsulation(j *job.Job) {
	j.Base.Under = []job.Course{course(job.CourseInsulation, 30), course(job.CourseScreed, 65)}
}

// tankedBeyond ends the tanking 300 beyond the shower.
func tankedBeyond(j *job.Job) {
	beyond := 300.0
	j.Layers.Tanking = &job.Tanking{BeyondMM: &beyond}
}

// layers are thicknesses by the names of what lies at a place.
type layers = map[message.ID]float64

// with are layers with more of them.
func with(out, more layers) layers {
	for k, mm := range more {
		out[k] = mm
	}
	return out
}

// ownRoom are the room's own finish and what lies with it.
func ownRoom(more layers) layers {
	return with(layers{"layer.room-tanking": 1, "layer.room-bed": 3, "layer.room-tile": 9}, more)
}

// Everything that is stated over or under the starting job's floor, by hand. All in its
// shower comes up with what the trap stands on: the base stays 69 over its bed of 3, the
// former is at 20 at the drain, tile, bed and tanking are 9, 3 and 1; at the front edge the
// former is 16.34 thicker. The room's own layers are 13.
func TestCoursesAndWhatWasFound(t *testing.T) {
	front, room := plan.Point{700, 1000}, plan.Point{2000, 500}
	stack := func(of layers) layers {
		return with(layers{"layer.base-bed": 3, "layer.base": 69, "layer.former-bed": 3, "layer.former": 36.34,
			"layer.shower-tanking": 1, "layer.shower-bed": 3, "layer.shower-tile": 9}, of)
	}
	half := existing(found(job.ExistingInsulation, 40, job.OutNowhere), found(job.ExistingScreed, 60, job.OutShower),
		found(job.ExistingFinish, 12, job.OutNowhere))
	for name, c := range map[string]struct {
		change     func(*job.Job)
		at         plan.Point
		start, top float64
		want       layers
	}{
		"screed over insulation under the base": {screedOnInsulation, front, 0, 124.34 + 95, stack(layers{"layer.insulation": 30, "layer.screed": 65})},
		"the room beside it":                    {screedOnInsulation, room, 0, 13, ownRoom(nil)},
		"a warm shower": {func(j *job.Job) {
			j.Layers.Shower.Under = []job.Course{course(job.CoursePrimer, 0), course(job.CourseDecoupling, 3), course(job.CourseHeating, 6)}
		}, front, 0, 124.34 + 9, stack(layers{"layer.decoupling": 3, "layer.heating": 6})},
		"a warm room": {func(j *job.Job) {
			j.Layers.Room.Under = []job.Course{course(job.CourseInsulation, 20), course(job.CourseScreed, 50), course(job.CourseHeating, 5)}
		}, room, 0, 88, ownRoom(layers{"layer.insulation": 20, "layer.screed": 50, "layer.heating": 5})},
		// On the raised room's base: it comes up to the front edge all the same.
		"a warm raised room": {func(j *job.Job) {
			raised(j)
			j.Layers.Room.Under = []job.Course{course(job.CourseHeating, 5)}
		}, room, 0, 124.34, ownRoom(layers{"layer.room-base-bed": 3, "layer.room-base": 124.34 - 3 - 18, "layer.heating": 5})},
		// The screed goes under the shower, and the finish on it with it, though it is said to
		// stay: the shower stands on 40 of insulation.
		"half taken out, shower": {half, front, 0, 124.34 + 40, stack(layers{"layer.existing-insulation": 40})},
		"half taken out, room":   {half, room, 0, 112, layers{"layer.existing-insulation": 40, "layer.existing-screed": 60, "layer.existing-finish": 12}},
		"newly finished on the screed": {existing(found(job.ExistingMembrane, 1, job.OutNowhere), found(job.ExistingScreed, 60, job.OutShower),
			found(job.ExistingFinish, 12, job.OutEverywhere)), room, 0, 74, ownRoom(layers{"layer.existing-membrane": 1, "layer.existing-screed": 60})},
		"all out": {existing(found(job.ExistingBoards, 18, job.OutEverywhere), found(job.ExistingFinish, 12, job.OutNowhere)),
			room, 0, 13, ownRoom(nil)},
		// The base of a raised room stands on the screed that stays, 154.34 − 30 − 13 high
		// with its bed.
		"raised on what stays": {func(j *job.Job) {
			raised(j)
			j.Floor.Existing = []job.Existing{found(job.ExistingScreed, 30, job.OutNowhere)}
		}, room, 0, 154.34, ownRoom(layers{"layer.existing-screed": 30, "layer.room-base-bed": 3, "layer.room-base": 108.34})},
		// The shower stands on the screed as well: 145.34 half way along its right edge, and
		// half way down the ramp of 111.34 over 600.
		"ramp on what stays": {func(j *job.Job) {
			ramped(j)
			j.Floor.Existing = []job.Existing{found(job.ExistingScreed, 30, job.OutNowhere)}
		}, plan.Point{1700, 1450}, 0, 145.34 - 55.67, ownRoom(layers{"layer.existing-screed": 30, "layer.ramp": 145.34 - 55.67 - 30 - 13})},
		"beyond the tanking":   {tankedBeyond, room, 0, 13, layers{"layer.room-bed": 4, "layer.room-tile": 9}},
		"within the tanking":   {tankedBeyond, plan.Point{1650, 1200}, 0, 13, ownRoom(nil)},
		"set down":             {func(j *job.Job) { j.Floor.SetDownMM = 50 }, front, -50, 124.34 - 50, stack(nil)},
		"beside what set down": {func(j *job.Job) { j.Floor.SetDownMM = 50 }, room, 0, 13, ownRoom(nil)},
		"no slab to set down": {func(j *job.Job) {
			j.Floor.Kind, j.Floor.SetDownMM = job.FloorTimber, 50
		}, front, 0, 124.34, stack(nil)},
	} {
		f, _, _ := floorOf(starting(c.change))
		expect(t, name, f.At(c.at), c.start, c.top, c.want)
		if got := f.FinishedMM(c.at); !(math.Abs(got-c.top) <= 1e-9) {
			t.Errorf("%s: finished at %v, want %v", name, got, c.top)
		}
	}
}

// What lies under a base that is let in is cut out with the deck.
func TestNothingLiesUnderALetInBase(t *testing.T) {
	plain, _, _ := floorOf(letIn())
	j := letIn()
	j.Base.Under = []job.Course{course(job.CourseScreed, 65)}
	j.Floor.Existing = []job.Existing{found(job.ExistingScreed, 60, job.OutNowhere)}
	f, _, _ := floorOf(j)
	at := plan.Point{700, 1450}
	if want, got := plain.At(at), f.At(at); len(got) != len(want) || got.TopMM() != want.TopMM() {
		t.Errorf("%v, without anything under it %v", got, want)
	}
}

// The load of what is laid, by hand: 65 of screed at 2100 kg/m³ and 30 of insulation at
// 50, (0.065·2100 + 0.03·50)·9.81/1000 = 1.354 kN/m² more than without.
func TestCoursesWeigh(t *testing.T) {
	plain, _, _ := floorOf(starting(nil))
	f, _, _ := floorOf(starting(screedOnInsulation))
	at := plan.Point{700, 1450}
	if got := f.AddedKNM2(at) - plain.AddedKNM2(at); math.Abs(got-1.35378) > 1e-5 {
		t.Errorf("%v kN/m² more, want 1.354", got)
	}
}

// Readings taken where a slab is set down are of the lower level: 50 below the others
// they lie in one plane with them, and the bed is as thick over them as elsewhere.
func TestReadingsWhereASlabIsSetDownRoom(t *testing.T) {
	j := starting(func(j *job.Job) {
		j.Floor.SetDownMM = 50
		j.SpotLevels = []job.SpotLevel{{At: plan.Point{700, 1450}, LevelMM: -50}, {At: plan.Point{2000, 100}}, {At: plan.Point{100, 100}}}
	})
	f, l, h := floorOf(j)
	if h.Survey.Floor.Gradient() > 1e-12 || h.FloorHighMM != -50 || h.ProudMM != 0 {
		t.Errorf("floor %v, highest under the shower %v, proud %v", h.Survey.Floor, h.FloorHighMM, h.ProudMM)
	}
	bed, _ := h.Bed(&j, &l)
	if math.Abs(bed.Least.ThicknessMM-3) > 1e-9 || math.Abs(bed.Greatest.ThicknessMM-3) > 1e-9 {
		t.Errorf("bed from %v to %v, want 3", bed.Least.ThicknessMM, bed.Greatest.ThicknessMM)
	}
	if top := f.At(plan.Point{700, 1000}).TopMM(); math.Abs(top-74.34) > 1e-9 {
		t.Errorf("front edge at %v", top)
	}
}

// Every kind of course and of layer found has a name and a material of its own that
// weighs something.
func TestListedLayersHaveNames(t *testing.T) {
	seen := map[message.ID]job.CourseKind{}
	for _, v := range job.CourseKinds().Values() {
		k := job.CourseKind(v)
		name, of := buildup.CourseFacts(k)
		if seen[name] != "" || of.DensityKGM3() <= 0 {
			t.Errorf("%s is called %q as %q is, and weighs %v", k, name, seen[name], of.DensityKGM3())
		}
		seen[name] = k
	}
}
