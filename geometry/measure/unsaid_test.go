package measure

import (
	"math"
	"testing"

	"underfall/assets"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// A pair of bodies that the table does not say to be apart gives no number, which no
// rule passes: where two kinds of body come together that nobody thought of, the job is
// stopped and not waved through.
func TestPairsLeftUnsaidGiveNoNumber(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	letIn := func(change func(*job.Job)) job.Job {
		j := demos[2].Job.Clone()
		change(&j)
		return j
	}
	slab := job.New()
	studs := slab.Clone()
	studs.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: 400, FirstStudMM: 80, StudWidthMM: 47}
	doorway := slab.Clone()
	doorway.Room.Doorways = []job.Doorway{{Wall: 3, OffsetMM: 100, WidthMM: 500, HeightMM: 2040, Leaf: job.LeafNone}}
	inFloor := slab.Clone()
	inFloor.Drain.ChannelDepthMM = 100
	for _, c := range []struct {
		quantity string
		job      job.Job
	}{
		{"clash.wall-gap", slab}, {"clash.run-gap", slab}, {"exit.in-stud", studs}, {"clash.door-gap", doorway}, {"clash.drain-gap", inFloor},
		{"trap.in-joist", letIn(func(j *job.Job) { j.Floor.Joists.FirstOffsetMM = 130 })},
		{"clash.joist-gap", letIn(func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{400, 1932}, {400, 1444}}
			j.Waste.Exit.OffsetMM = 2000 - 1444
		})},
		{"clash.deck-gap", letIn(func(j *job.Job) { j.Former.Fall = job.FallFront })},
		{"exit.in-joist", letIn(func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{300, 1932}} })},
	} {
		if p := c.job.Validate(); len(p) > 0 {
			t.Fatal(c.quantity, p)
		}
		l := stage.Place(c.job, rule.Pack{}, &plan.Shaper{}).Level()
		values := func(pairs *clash.Table) (numbers, none int) {
			m := Measurer{pairs: pairs}
			m.Begin(l)
			for _, x := range m.Levels() {
				switch {
				case x.Quantity != c.quantity:
				case math.IsNaN(x.Value):
					none++
				default:
					numbers++
				}
			}
			return numbers, none
		}
		if numbers, none := values(clash.TableOf(clash.Pairs())); numbers == 0 || none > 0 {
			t.Errorf("%s has %d numbers, and %d that are none", c.quantity, numbers, none)
		}
		if numbers, none := values(clash.TableOf(nil)); numbers > 0 || none == 0 {
			t.Errorf("%s of an unsaid pair has %d numbers, and %d that are none", c.quantity, numbers, none)
		}
	}
}
