package fit_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Numbers are turned no farther than ends the finding, falls so far that 95 of 100 builds
// end it too, in halves of a millimetre on a metre: a pipe off by 3 on a metre to the code's 18
// and 1.645·3/2 more, 20.5, or as much less than 90, 87.5; a floor off by 2 over 817 to 12.5 and 1.645/0.817
// more, 15, or as much less than 28.57, 26.5; and from there on to the next that the trade lays them at, 1:40 and
// 1:12, 1:60 and 1:40; tanking to the 1800 it asks for in the step of its field over what the floor rises
// under it, noggins to the widest usual spacing; the base of the starting job to 69, which is
// 72 less 3 of bed. What no number mends another change does;
// what neither does has no remedy.
func TestAdjustments(t *testing.T) {
	slab, letIn := demotest.Rooms(t)[0].Job, demotest.Rooms(t)[2].Job
	for name, c := range map[string]struct {
		of     job.Job
		change func(*job.Job)
		rule   string
		does   string // empty for no remedy
	}{
		"too flat a pipe": {slab, func(j *job.Job) { j.Waste.Gradient = 0.01 }, "uk-gradient-min-50", "remedy.pipe-fall{value: 0.025 falling}"},
		"too steep a pipe": {slab, func(j *job.Job) { j.Waste.Gradient = 0.12 },
			"uk-gradient-max-50", "remedy.pipe-fall{value: 0.083333333 falling}"},
		"too flat a floor":  {slab, func(j *job.Job) { j.Former.Slope = 0.01 }, "uk-fall-min", "remedy.floor-fall{value: 0.016666667 falling}"},
		"too steep a floor": {slab, func(j *job.Job) { j.Former.Slope = 0.05 }, "uk-fall-max", "remedy.floor-fall{value: 0.025 falling}"},
		"a base too low": {job.New(), func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40 },
			"base-low", "remedy.base-height{value: 69 mm}"},
		"a bare base": {slab, func(j *job.Job) { j.Base.Height = job.HeightBare; j.Drain.BedUnderMM = 5 }, "base-clear",
			"remedy.safe-height"},
		"low tanking": {slab, func(j *job.Job) { j.Layers.Tanking = &job.Tanking{WallToMM: 1500} },
			"uk-tank-wall", "remedy.tank-walls{value: 1850 mm}"},
		"a narrow joint": {slab, func(j *job.Job) { j.Layers.Joints = &job.Joints{PerimeterMM: 3} },
			"uk-joint-perimeter", "remedy.wall-gap{value: 6 mm}"},
		"a loose edge":     {letIn, func(*job.Job) {}, "deck-edge", "remedy.noggins{value: 600 mm}"},
		"a loose edge, in": {letIn, func(j *job.Job) { j.Units = unit.Imperial }, "deck-edge", "remedy.noggins{value: 609.6 mm}"},
		"turns that bend": {slab, func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}}; j.Waste.Exit.OffsetMM = 300 },
			"turn-off", "remedy.straight"},
		"a small trap seal": {slab, func(j *job.Job) { j.Drain.SealMM = 40 }, "uk-seal", ""},
		"a fact":            {slab, func(*job.Job) {}, "beyond-unknown", ""},
	} {
		r, f, found := brokenBy(t, name, c.of, c.change, c.rule)
		if !found {
			continue
		}
		got, ok := fit.Adjust(r, f)
		if said := got.Does.String(); ok != (c.does != "") || ok && said != c.does {
			t.Errorf("%s: offered %v: %s, want %s", name, ok, said, c.does)
		}
	}
}

// Whatever is offered, in whichever region and for whatever cause, ends what it is offered
// for and brings nothing new that stops the job: worked out afresh.
func TestRemediesDoWhatTheySay(t *testing.T) {
	packs := demotest.Packs(t)
	offered := 0
	for _, shown := range demotest.Shown(t) {
		for _, region := range []string{"UK", "US", "AU", "DE"} {
			j := shown.Stated.Clone()
			j.Region, j.Edition = region, packs[region].Edition
			before := geometry.Evaluate(j, packs[region])
			for _, card := range before.Answer(nil).Cards {
				f := card.Worst().Finding
				r, _, ok := fit.RemedyOf(before, f)
				if !ok {
					continue
				}
				offered++
				after := geometry.Evaluate(r.Edit.Apply(j), packs[region])
				still := slices.ContainsFunc(after.Findings, func(o rule.Finding) bool { return o.Key() == f.Key() })
				if len(after.Problems) > 0 || still || stops(after) > stops(before) {
					t.Errorf("%s in %s, %s by %s: still %v, %d stops of %d: %v",
						j.Name, region, f.Rule.ID, r.Does, still, stops(after), stops(before), after.Problems)
				}
				if math.Abs(after.Heights.BaseTopMM-r.After.Heights.BaseTopMM) > 1e-9 {
					t.Errorf("%s in %s, %s: the base comes to %v, told was %v",
						j.Name, region, f.Rule.ID, after.Heights.BaseTopMM, r.After.Heights.BaseTopMM)
				}
			}
		}
	}
	if offered < 20 {
		t.Errorf("%d remedies offered", offered)
	}
	t.Logf("%d remedies pressed", offered)
}

// stops are how many rules stop a floor.
func stops(r geometry.Result) int {
	ids := map[string]bool{}
	for _, f := range r.Findings {
		if f.Rule.Severity == rule.Stop {
			ids[f.Rule.ID] = true
		}
	}
	return len(ids)
}

// What a remedy changes besides is told: how much higher the floor comes, in how many builds
// that comes right, and what else
// goes and comes.
func TestChangesOfARemedy(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
	before := evaluated(t, j)
	f, _ := broken(before, "base-low")
	r, _, ok := fit.RemedyOf(before, f)
	if !ok {
		t.Fatal("no remedy")
	}
	lines := r.Changes(before, f)
	if len(lines) == 0 || lines[0].ID != "remedy.higher" {
		t.Fatalf("%v", lines)
	}
	for _, l := range lines[1:] {
		if l.ID != "fit.gone" && l.ID != "fit.new" && l.ID != "remedy.chance" {
			t.Errorf("%v", l)
		}
	}
}

// Where no other way for the outlet mends a run that does not go together, its own turns
// still do: between joists, past a corner that no bend makes.
func TestTheRunFindsItsTurnsWhereNoOutletHelps(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	j.Waste.Waypoints = []plan.Point{{150, 300}}
	before := evaluated(t, j)
	f, found := broken(before, "turn-off")
	if !found {
		t.Fatal("nothing to mend")
	}
	r, _, ok := fit.RemedyOf(before, f)
	if !ok || r.Does.ID != "remedy.straight" || len(r.Edit.Apply(j).Waste.Waypoints) != 0 {
		t.Errorf("offered %v: %s", ok, r.Does)
	}
	if _, still := broken(r.After, "turn-off"); still {
		t.Error("it still turns off")
	}
}

// A remedy for one place of a card says at how many others the same rule stays broken, and what else
// of the cause stays, under which heading: of the twelve places in which the sixth demo's run and trap
// are in joists, cutting one joist out ends the one that the trap is in and what lies near it.
func TestWhatARemedyLeaves(t *testing.T) {
	before := demotest.Shown(t)[5]
	var card geometry.Card
	for _, c := range before.Answer(nil).Cards {
		if c.Worst().Rule.ID == "trap-joist" {
			card = c
		}
	}
	for _, p := range card.Places {
		r, _, ok := fit.RemedyOf(before, p.Finding)
		if !ok {
			continue
		}
		same, others := 0, map[string]bool{}
		for _, o := range card.Places {
			switch stays := slices.ContainsFunc(r.After.Findings, func(f rule.Finding) bool { return f.Key() == o.Key() }); {
			case stays && o.Rule.ID == p.Rule.ID:
				same++
			case stays:
				others[o.Rule.Heading().String()] = true
			}
		}
		var left, beside string
		for _, m := range r.Price(before, p.Finding) {
			switch m.ID {
			case "remedy.left":
				left = m.String()
			case "remedy.beside":
				beside = m.String()
			}
		}
		want := ""
		if same > 0 {
			want = fmt.Sprintf("remedy.left{n: %d}", same)
		}
		if left != want || len(others) == 0 || strings.Count(beside, "heading") != min(len(others), 3) {
			t.Errorf("%s: it says %q, want %q; %q beside it, want %v", p.Rule.ID, left, want, beside, others)
		}
	}
}

// A remedy that ends one rule and breaks another of the same cause says so with its price, under that
// one's heading: a trap clear of the joist whose outlet then is not.
func TestWhatARemedyTradesFor(t *testing.T) {
	made := func(id, quantity string, joist int) rule.Finding {
		return rule.Finding{Rule: rule.Rule{ID: id, Quantity: quantity, Compare: rule.AtMost, Severity: rule.Stop},
			Measurement: rule.Measurement{Quantity: quantity, Subject: rule.Subject{Of: rule.TrapInJoist, Number: joist}, Value: 5}}
	}
	trap, pipe, other := made("trap-joist", "trap.in-joist", 2), made("clash-joist", "clash.joist-gap", 3), made("seal", "trap.seal", 0)
	r := fit.Remedy{New: []rule.Finding{pipe, other}, After: demotest.Shown(t)[0]}
	r.After.Findings = []rule.Finding{pipe, other}
	var said []string
	for _, m := range r.Price(demotest.Shown(t)[0], trap) {
		if m.ID == "remedy.instead" || m.ID == "remedy.beside" || m.ID == "remedy.left" {
			said = append(said, m.String())
		}
	}
	if want := []string{"remedy.instead{what: [rule.clash-joist.heading{limit: 0 mm}]}"}; !slices.Equal(said, want) {
		t.Errorf("it says %v, want %v", said, want)
	}
	for _, m := range r.Changes(demotest.Shown(t)[0], trap) {
		if m.ID == "fit.new" && strings.Contains(m.String(), "clash-joist") {
			t.Errorf("it is told twice: %v", m)
		}
	}
	// What is assumed from then on is told so too.
	before := evaluated(t, job.New())
	f, _ := broken(before, "beyond-unknown")
	reckon, _, _ := fit.RemedyOf(before, f)
	if !slices.ContainsFunc(reckon.Price(before, f), func(m message.Message) bool {
		return m.ID == "remedy.instead" && strings.Contains(m.String(), "beyond-assumed")
	}) {
		t.Errorf("the price of reckoning with the usual: %v", reckon.Price(before, f))
	}
}

// A number is turned to a value that the trade sets it to, tried like any other: by its own country's falls, a
// quarter or three eighths of an inch to the foot in the United States, and in whole inches where those are
// used. What one is worse off with is passed over for the next that does. Common practice, no source.
func TestNumbersAreTurnedToWhatIsUsual(t *testing.T) {
	slab, loft := demotest.Rooms(t)[0].Job, demotest.Shown(t)[1].Stated
	inches := func(j *job.Job) { j.Units = unit.Imperial }
	for name, c := range map[string]struct {
		of     job.Job
		change func(*job.Job)
		rule   string
		id     message.ID
		every  float64 // of which the value is a whole multiple
	}{
		"a pipe in the US": {slab, func(j *job.Job) { j.Region, j.Waste.Gradient = "US", 0.01 }, "us-gradient-min", "remedy.pipe-fall", 1.0 / 96},
		"a pipe, inches": {slab, func(j *job.Job) { j.Units, j.Waste.Gradient = unit.Imperial, 0.01 },
			"uk-gradient-min-50", "remedy.pipe-fall", 1.0 / 96},
		"a splash":         {loft, func(*job.Job) {}, "head-splash", "remedy.shower-depth", 50},
		"a splash, inches": {loft, inches, "head-splash", "remedy.shower-depth", 25.4},
		"a hole, inches":   {slab, inches, "core-slab", "remedy.way-out-up", 3.175},
	} {
		r, f, found := brokenBy(t, name, c.of, c.change, c.rule)
		if !found {
			continue
		}
		got, ok := fit.Adjust(r, f)
		if !ok || got.Does.ID != c.id {
			t.Errorf("%s: offered %v: %s", name, ok, got.Does)
			continue
		}
		value := math.NaN()
		switch v := got.Does.Args[0].Value.(type) {
		case message.Length:
			value = v.MM
		case message.Level:
			value = v.MM
		case message.Fall:
			value = v.Slope
		}
		if n := value / c.every; !(math.Abs(n-math.Round(n)) < 1e-6) {
			t.Errorf("%s: %v is no multiple of %v", name, value, c.every)
		}
		if _, still := broken(got.After, c.rule); still {
			t.Errorf("%s: %s is still broken", name, c.rule)
		}
	}
}

// brokenBy is a job, changed, with what it breaks of a rule; a rule that it keeps is told.
func brokenBy(t *testing.T, name string, of job.Job, change func(*job.Job), id string) (geometry.Result, rule.Finding, bool) {
	t.Helper()
	j := of.Clone()
	change(&j)
	r := evaluated(t, j)
	f, found := broken(r, id)
	if !found {
		t.Errorf("%s: %s is not broken", name, id)
	}
	return r, f, found
}

// How high the floor comes by a remedy is told as the answer tells both, each between two levels as they are read: over a slab
// whose highest is 2.4, told as +2, a base raised by 40.3 is told as +43, and so raised by 41, not by 40.
func TestARemedyPromisesWhatTheAnswerTells(t *testing.T) {
	told := func(r geometry.Result) float64 {
		for _, g := range r.Figures() {
			if g.Of.ID == "figure.raise" {
				return unit.RiseRead(g.Value.Args[0].Value.(message.Rise), unit.Metric)
			}
		}
		t.Fatal("no raise is told")
		return 0
	}
	apart := 0
	for _, up := range []float64{0, 0.2, 0.4, 0.6} {
		j := demotest.Rooms(t)[0].Job.Clone()
		for i := range j.SpotLevels {
			j.SpotLevels[i].LevelMM += up
		}
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40.3
		before := evaluated(t, j)
		f, _ := broken(before, "base-low")
		r, _, ok := fit.RemedyOf(before, f)
		if !ok {
			t.Fatal("no remedy")
		}
		line := r.Changes(before, f)[0]
		by, is := line.Args[0].Value.(message.Rise), line.Args[1].Value.(message.Length)
		was, then := told(before), told(r.After)
		if unit.RiseRead(by, unit.Metric) != then-was || is.MM != then {
			t.Errorf("promised %v higher, to %v; it is told as %v, and then as %v", by, is, was, then)
		}
		if math.Round(before.Heights.BaseTopMM-before.Heights.FloorHighMM) != was {
			apart++
		}
	}
	if apart == 0 {
		t.Error("no raise is told otherwise than by itself")
	}
}
