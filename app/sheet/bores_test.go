package sheet_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// upstairs is a bathroom of 1850 by 2400 over joists of 47 × 200 every 400 that run away from the door's wall, a shower of 1400 by 850 let
// in between them in corner BC, and the waste out through outside wall B, the ground 2600 below.
func upstairs(t *testing.T) job.Job {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j, problems := question.PracticeIn("UK-EN", shelf).Job(question.Sheet{Region: "UK-EN", Units: unit.Metric,
		Room:   question.Room{Long: question.Given(1850), Wide: question.Given(2400)},
		Floor:  question.Floor{Is: question.Timber, Said: true, Runs: question.FromA, Deep: question.Given(200), Every: question.Given(400)},
		Shower: question.Shower{Stands: question.InCorner, Wall: 1, Long: question.Given(1400), Deep: question.Given(850)},
		Water:  question.Water{To: question.GoesOutThroughWall, Wall: 1}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	j = edit.Support(job.BetweenJoists).Apply(j)
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, -22
	j.Former.Fall = job.FallRight
	j.Drain.LengthMM, j.Drain.TrapOffsetMM, j.Drain.OutletTurnDeg = 800, 340, 180
	j.Waste.Waypoints = []plan.Point{{765, 1700}}
	for i := range j.Room.Walls {
		if j.Room.Letter(i).String() == "B" {
			groundMM := -2600.0
			j.Room.Walls[i].OutsideGroundMM = &groundMM
		}
	}
	return j
}

// evaluated is what a job comes to by the rules of its region.
func evaluated(t *testing.T, j job.Job) geometry.Result {
	t.Helper()
	return geometry.Evaluate(j, demotest.Packs(t)[j.Region])
}

// inARow is the text of a sheet with every space and line break alike.
func inARow(t *testing.T, r geometry.Result, kind sheet.Kind) string {
	t.Helper()
	return strings.Join(strings.Fields(textOf(t, r, kind)), " ")
}

// The sheet tells how this job's pipe is got through the joists, and its couplings are the order's: pushed in whole from outside, where
// the ground lies 2600 below the floor and that asks for a scaffold, it has none; by lengths from the room it has one, as is reckoned by
// hand in takeoff's TestPipeBetweenJoistsIsCoupled.
func TestPipeThroughJoistsIsToldOfThisJob(t *testing.T) {
	out := upstairs(t)
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	within := demos[slices.IndexFunc(demos, func(d assets.Demo) bool { return strings.HasPrefix(d.File, "3-") })].Job
	demotest.AcrossJoists(&within, 150)
	within.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{250, 1832}}
	ground := out.Clone()
	level := -300.0
	ground.Room.Walls[1].OutsideGroundMM = &level
	unknown := out.Clone()
	unknown.Room.Walls[1].OutsideGroundMM = nil
	for name, c := range map[string]struct {
		of       job.Job
		says     []string
		not      []string
		coupling bool
	}{
		"upstairs": {out, []string{"Pipe 3 goes in in one length: push it in from outside through the hole in wall B", "scaffold"},
			[]string{"coupling", "by lengths"}, false},
		"at the ground": {ground, []string{"push it in from outside"}, []string{"coupling", "scaffold"}, false},
		"not known":     {unknown, []string{"push it in from outside", "is not stated: where it cannot be reached"}, []string{"coupling"}, false},
		"into the floor": {within, []string{"by lengths that fit", "with 1 straight coupling between joists"},
			[]string{"from outside", "scaffold"}, true},
	} {
		r := evaluated(t, c.of)
		_, text, _ := strings.Cut(inARow(t, r, sheet.Fitter), "Holes in joists, for the waste")
		text, _, ok := strings.Cut(text, "Section ")
		if !ok {
			t.Errorf("%s: no holes are told", name)
		}
		for _, says := range c.says {
			if !strings.Contains(text, says) {
				t.Errorf("%s: %q is not told: %s", name, says, text)
			}
		}
		for _, says := range c.not {
			if strings.Contains(text, says) {
				t.Errorf("%s: %q is told: %s", name, says, text)
			}
		}
		if got := strings.Contains(inARow(t, r, sheet.Order), "Straight coupling"); got != c.coupling {
			t.Errorf("%s: a coupling in the order is %v, want %v", name, got, c.coupling)
		}
	}
}

// A level is told alike on all of the sheet, and what is built up at the way in stands on the boards between joists, though its edge lies
// along one. Base top -22, bed 3, tanking 1, tile bed 2 and tile 9 under a top of +39 leave 46 for the former.
func TestTheWayInIsToldAlikeEverywhere(t *testing.T) {
	text := textOf(t, evaluated(t, upstairs(t)), sheet.Fitter)
	_, built, _ := strings.Cut(text, "Built up, top layer first")
	built, _, _ = strings.Cut(built, "To settle")
	top := regexp.MustCompile(`Shower tile 9\s+\+39\s+961\b`)
	former := regexp.MustCompile(`Former 46\s+\+27\s+973\b`)
	if !top.MatchString(built) || !former.MatchString(built) {
		t.Errorf("the way in is not at +39, its former not 46 thick with its top at +27: %s", built)
	}
	if n := strings.Count(built, "Base between"); n != 2 {
		t.Errorf("boards between joists stand under %d of drain and way in: %s", n, built)
	}
	if work := regexp.MustCompile(`Former, top: way in\s+\+27\s+973`); !work.MatchString(text) {
		t.Error("the order of work has the former's top at the way in otherwise")
	}
}

// The shower's corners are marked out by its left and right as one faces the wall that it stands at, and that wall has its letter.
func TestCornersNameTheWallTheyAreSeenFrom(t *testing.T) {
	text := inARow(t, evaluated(t, upstairs(t)), sheet.Fitter)
	for _, says := range []string{"Shower, back left corner, facing wall B", "Shower, front right corner, facing wall B"} {
		if !strings.Contains(text, says) {
			t.Errorf("%q is not told", says)
		}
	}
}

// An order says that what the pipe joins outside is not on it, where it goes outside.
func TestTheOrderEndsWhereThePipeDoes(t *testing.T) {
	j := upstairs(t)
	const says = "What the pipe joins outside"
	if !strings.Contains(inARow(t, evaluated(t, j), sheet.Order), says) {
		t.Error("it is not told")
	}
	for _, r := range demos(t) {
		if got := strings.Contains(inARow(t, r, sheet.Order), says); got != (r.Settled.Waste.WayOut() != nil) {
			t.Errorf("%s: it is told is %v", r.Settled.Name, got)
		}
	}
}
