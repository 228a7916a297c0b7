package section_test

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// shown tells what is drawn at distances along a long section and levels.
type shown struct {
	what string
	s, z float64
	id   string
}

func expectShown(t *testing.T, d section.Drawing, want []shown) {
	t.Helper()
	for _, c := range want {
		id := ""
		if a, ok := d.At(plan.Point{c.s, c.z * d.Rise}); ok {
			id = a.PartID
		}
		if id != c.id {
			t.Errorf("%s, %v along at %v: %q, want %q", c.what, c.s, c.z, id, c.id)
		}
	}
}

// said is the first mark of its kind, as it is written.
func said(d section.Drawing, of message.ID) string {
	for _, m := range d.Marks {
		if m.Of == of {
			return m.Message().String()
		}
	}
	return ""
}

// Nothing is drawn of what the waste joins outside while nobody knows it: that is said at its end. Assumed, it is drawn.
func TestWhatIsNotKnownOutsideIsNotDrawn(t *testing.T) {
	for standing, gully := range map[job.Standing]bool{job.NotKnown: false, job.Assumed: true} {
		r := starting(t, func(j *job.Job) {
			j.Waste.Beyond = &job.Beyond{LengthMM: 140, Joins: job.JoinGully}
			j.SetStanding("waste.beyond.joins", standing)
		})
		for name, d := range map[string]section.Drawing{"plan": section.PlanOf(r), "along": section.LongOf(r)} {
			if drawn := slices.ContainsFunc(d.Lines, func(l section.Line) bool { return l.Kind == "gully" }); drawn != gully {
				t.Errorf("%s, %s: a gully drawn is %v", name, standing, drawn)
			}
			if told := said(d, section.MarkJoinNotKnown) != ""; told == gully {
				t.Errorf("%s, %s: that it is not known is told is %v", name, standing, told)
			}
		}
	}
}

// What the waste goes down into stands at the ground outside where nothing else is stated of it: a gully's top at −2600, its foot 150
// under that, and a drain's pipe goes down past −2600.
func TestWhatStandsOutsideStandsOnTheGround(t *testing.T) {
	for _, joins := range []job.JoinKind{job.JoinGully, job.JoinDrain} {
		r := starting(t, func(j *job.Job) {
			ground := -2600.0
			j.Room.Walls[j.Waste.Exit.Wall].OutsideGroundMM = &ground
			j.Waste.Beyond = &job.Beyond{LengthMM: 140, Joins: joins}
		})
		d := section.LongOf(r)
		end, foot := r.Heights.Run.LengthMM, 0.0
		for _, l := range d.Lines {
			if l.Kind == "gully" {
				foot = l.Points[1].Y() / d.Rise
			}
		}
		for _, a := range d.Areas {
			if low, high, ok := a.Region.Bounds(); ok && a.PartID == "way-down" && low.X() < end && high.X() > end-100 {
				foot = min(foot, low.Y()/d.Rise)
			}
		}
		if joins == job.JoinGully && foot != -2750 || joins == job.JoinDrain && foot > -2600 {
			t.Errorf("%s: its foot is at %v", joins, foot)
		}
		told := slices.ContainsFunc(d.Lines, func(l section.Line) bool { return l.Kind == "ground" })
		if !told {
			t.Errorf("%s: no ground is drawn", joins)
		}
	}
}

// The starting job goes 645 to the wall, which is 215 thick; with 140 more to a gully it is
// 1000 long, and falls 25 from 20. A pipe of 50 with a bore of 46 and a bend of 45 from its
// corner to its face turns down there: its lower leg stands at 1000, its walls 23 to 25 from
// the middle, through the grating at −100 to −130, over water at −160. The gully is 150
// across. Without the bend the pipe goes on to 1000, and nothing comes down.
func TestIntoAGully(t *testing.T) {
	grating, water, down := -100.0, -160.0, -130.0
	way := job.Beyond{LengthMM: 140, Joins: job.JoinGully, GratingMM: &grating, WaterMM: &water, DownToMM: &down}
	r := starting(t, func(j *job.Job) { j.Waste.Beyond = &way })
	d := section.LongOf(r)
	expectShown(t, d, []shown{
		{"left wall of the leg", 976, -120, "way-down"}, {"its bore", 1000, -120, ""}, {"right wall of the leg", 1024, -120, "way-down"},
		{"under its end", 1024, -131, ""}, {"water", 940, -165, "gully-water"}, {"beside it", 1076, -165, ""},
		// The crown's wall lies 46 to 48 over an invert of 20 − 23.75 = −3.75 at 950.
		{"crown before the bend", 950, 43.3, "pipe-1"}, {"bore of the bend", 1000, 15, ""},
	})
	if got := said(d, section.MarkWayDown); got != "mark.way-down{level: -130 mm over the datum}" {
		t.Errorf("the bend is called %q", got)
	}
	if said(d, section.MarkGully) == "" {
		t.Error("the gully is mute")
	}
	// The invert is marked where the bend begins, at 955: 20 − 955/40.
	last := 0.0
	for _, m := range d.Marks {
		if m.Of == section.MarkInvert {
			last = m.LevelMM
		}
	}
	if want := 20 - 955.0/40; last-want > 1e-9 || want-last > 1e-9 {
		t.Errorf("the last invert is %v, want %v", last, want)
	}
	way.DownToMM = nil
	d = section.LongOf(starting(t, func(j *job.Job) { j.Waste.Beyond = &way }))
	expectShown(t, d, []shown{{"no leg", 976, -120, ""}, {"the pipe's bottom at its end", 999, -6, "pipe-1"}})
}

// A drop through the floor 500 out, with its bend of 45: the leg stands at 545 − the hole is
// wider than the pipe of 50 by 8 all round, or as wide as the socket of 57: 66. The slab goes
// on past it; the base is sawn out as far as the socket and 10 more, 28.5 + 10 past the leg.
func TestDropThroughTheFloor(t *testing.T) {
	r := starting(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{100, 1832}} })
	d := section.LongOf(r)
	expectShown(t, d, []shown{
		{"slab before", 511, -30, "slab"}, {"hole", 513, -30, ""}, {"wall of the pipe", 521, -30, "drop"}, {"its bore", 545, -30, ""},
		{"its other wall", 569, -30, "drop"}, {"hole beyond", 577, -30, ""}, {"slab beyond", 579, -30, "slab"},
		{"no base", 582, 40, ""}, {"base", 590, 40, "base"}, {"former over the hole", 545, 85, "former"},
	})
	if got := said(d, section.MarkHole); got != "mark.hole{size: 66 mm}" {
		t.Errorf("the hole is called %q", got)
	}
}

// A pump whose inlet is 60 over its foot on the structural floor, its box 350 long and 280
// high: the run comes in at 60 and more; the box stands on the slab, hollow, with its
// discharge over it.
func TestIntoAPump(t *testing.T) {
	pump, high := job.UsualPump(), 1500.0
	pump.InletMM, pump.OnStructure, pump.DischargeMM = 60, true, &high
	r := starting(t, func(j *job.Job) {
		j.Waste.Pump, j.Waste.Exit, j.Base.Height = &pump, job.Exit{Kind: job.ExitPump, At: plan.Point{300, 900}}, job.HeightBare
	})
	d, end := section.LongOf(r), r.Heights.Run.LengthMM
	expectShown(t, d, []shown{
		{"floor of the box", end + 100, 2, "pump"}, {"in it", end + 100, 100, ""}, {"its lid", end + 100, 278, "pump"},
		{"under its inlet", end + 2, 30, "pump"}, {"its inlet", end + 2, 80, ""}, {"over its inlet", end + 2, 120, "pump"},
		{"far wall", end + 348, 100, "pump"}, {"slab under it", end + 100, -10, "slab"}, {"finish beyond it", end + 380, 5, "room-tile"},
		// 32 across at 0.8 of 350: its walls to 16 from 280, its bore nine tenths.
		{"discharge", end + 280 + 15, 300, "pump"}, {"its bore", end + 280, 300, ""},
	})
	if got := said(d, section.MarkDischarge); got != "mark.discharge{size: dimension.size{size: size 32}, level: 1500 mm over the datum}" {
		t.Errorf("the discharge is called %q", got)
	}
}

// An adaptor joins an existing pipe 100 before the wall on the left, 545 out: 100 of it are
// drawn up to the wall of 215, and through that.
func TestIntoAnExistingPipe(t *testing.T) {
	old := part.Pipe{NominalMM: 40, OutsideDiameterMM: 44, BoreMM: 40, SocketOutsideMM: 50, InsertionMM: 20}
	r := starting(t, func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{100, 1832}, NominalMM: 40}
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingAdaptor, AtMM: 485, LengthMM: 60, Pipe: old}}
	})
	d := section.LongOf(r)
	invert := func(s float64) float64 { return r.Heights.OutletMM - s/40 }
	expectShown(t, d, []shown{
		{"old pipe's bottom", 600, invert(600) - 1, "old-pipe"}, {"its bore", 600, invert(600) + 20, ""}, {"its top", 600, invert(600) + 41, "old-pipe"},
		{"in the wall", 700, invert(700) - 1, "old-pipe"}, {"wall over it", 700, invert(700) + 60, "wall"}, {"no base round it", 600, invert(600) + 44, ""},
	})
	if got := said(d, section.MarkOldPipe); got != "mark.old-pipe{size: dimension.size{size: size 40}}" {
		t.Errorf("it is called %q", got)
	}
}

// Outside, a stack of 110 stands on from the run's end, at 645 + 215 + 140, and is named.
func TestIntoAStackOutside(t *testing.T) {
	d := section.LongOf(starting(t, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{LengthMM: 140, Joins: job.JoinStack} }))
	expectShown(t, d, []shown{{"near wall", 1001, 120, "stack"}, {"bore", 1055, 120, ""}, {"far wall", 1109, 120, "stack"}, {"its branch", 1001, 10, ""}})
	if said(d, section.MarkStackOutside) == "" {
		t.Error("the stack is mute")
	}
}

// A stack in a wall that the vent is stated at goes on up as the vent: one pipe, both named.
func TestStackThatVents(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Room.Walls[3].OutsideGroundMM = nil
		j.Room.Stacks = []job.Stack{{At: plan.Point{-107, 1832}, NominalMM: 50, OutsideMM: 50}}
		j.Waste.Exit, j.Waste.Vent = job.Exit{Kind: job.ExitStack}, &job.Vent{AtMM: 720, NominalMM: 50}
	})
	d := section.LongOf(r)
	if len(named(d, "vent")) > 0 {
		t.Error("a vent is drawn beside the stack")
	}
	// It stands from 645 + 107 − 25 = 727 to 777, the wall before and beyond it.
	expectShown(t, d, []shown{{"wall before", 700, 150, "wall"}, {"stack", 728, 150, "stack"}, {"its bore", 752, 150, ""}, {"wall beyond", 800, 150, "wall"}})
	if vent, stack := said(d, section.MarkVent), said(d, section.MarkBranch); vent != "mark.vent{size: dimension.size{size: size 50}}" || stack == "" {
		t.Errorf("it is called %q and %q", vent, stack)
	}
	for _, f := range r.Findings {
		if f.Rule.ID == "vent-in-shower" || f.Rule.ID == "vent-in-open" {
			t.Errorf("a vent in a wall: %s", f.Rule.ID)
		}
	}
	for _, p := range r.Assembly.Parts {
		if p.ID == "vent" {
			t.Error("a vent is built beside the stack")
		}
	}
}
