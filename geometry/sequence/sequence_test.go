package sequence_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/sequence"
)

// sound holds the order of a result against what any order of work must be.
func sound(t interface {
	Helper()
	Errorf(string, ...any)
}, r *geometry.Result) {
	t.Helper()
	steps := sequence.Of(r)
	at := map[string]int{}
	made := map[string]string{}
	for i, s := range steps {
		if _, twice := at[s.ID]; twice {
			t.Errorf("%s: %s comes twice", r.Settled.Name, s.ID)
		}
		at[s.ID] = i
		for _, id := range s.After {
			if before, ok := at[id]; !ok || before >= i {
				t.Errorf("%s: %s waits for %s, which does not come before it", r.Settled.Name, s.ID, id)
			}
		}
		for _, id := range s.Bodies {
			if made[id] != "" {
				t.Errorf("%s: %s is made by %s and by %s", r.Settled.Name, id, made[id], s.ID)
			}
			made[id] = s.ID
		}
	}
	for i := range r.Assembly.Parts {
		p := &r.Assembly.Parts[i]
		if (p.Stage > buildup.StageBare) != (made[p.ID] != "") {
			t.Errorf("%s: %s of stage %d is made by “%s”", r.Settled.Name, p.ID, p.Stage, made[p.ID])
		}
	}
	// What is covered is tested first; walls are tiled before the floor that their tile stands on.
	for _, pair := range [][2]string{{"waste", "leak-test"}, {"leak-test", "former"}, {"leak-test", "trough"}, {"tanking", "flood-test"}, {"flood-test", "wall-tile"},
		{"flood-test", "floor-tile"}, {"wall-tile", "floor-tile"}, {"floor-tile", "sealant"}, {"floor-tile", "cover"}, {"cover", "water-trial"}} {
		first, one := at[pair[0]]
		second, other := at[pair[1]]
		if one && other && first >= second {
			t.Errorf("%s: %s comes after %s", r.Settled.Name, pair[0], pair[1])
		}
	}
	if len(steps) == 0 || steps[0].ID != "survey" || steps[len(steps)-1].ID != "water-trial" {
		t.Errorf("%s: begins or ends with another step", r.Settled.Name)
	}
}

func TestOrdersOfDemos(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		sound(t, &r)
	}
}

func TestOrdersOfAnyJob(t *testing.T) {
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		if r := geometry.Evaluate(j, packs[j.Region]); len(r.Problems) == 0 {
			sound(t, &r)
		}
	})
}

// The first room has a hole through its wall, no pump, no joists; the third's base is let in between joists.
func TestStepsOfRooms(t *testing.T) {
	rooms := demotest.Results(t)
	ids := func(r *geometry.Result) (out []string) {
		for _, s := range sequence.Of(r) {
			out = append(out, s.ID)
		}
		return out
	}
	slab, letIn := ids(&rooms[0]), ids(&rooms[2])
	for _, c := range []struct {
		steps []string
		id    string
		want  bool
	}{{slab, "core", true}, {slab, "joists", false}, {slab, "pump", false}, {slab, "leak-test", true}, {slab, "flood-test", true},
		{letIn, "joists", true}, {letIn, "leak-test", true}} {
		if slices.Contains(c.steps, c.id) != c.want {
			t.Errorf("%s: %v in %v", c.id, !c.want, c.steps)
		}
	}
	for _, s := range sequence.Of(&rooms[2]) {
		// The boards lie on them, up to the joists' tops, on which the deck lies.
		if j := &rooms[2].Settled; s.ID == "joists" && (len(s.Targets) != 1 ||
			math.Abs(s.Targets[0].LevelMM-(rooms[2].Heights.FloorHighMM-j.Floor.Deck.ThicknessMM-j.Base.MinThicknessMM)) > 1e-9) {
			t.Errorf("the ledgers are read at %v", s.Targets)
		}
	}
	for _, s := range sequence.Of(&rooms[0]) {
		if s.ID == "core" { // square through the wall, half way down what the pipe falls within it
			run := &rooms[0].Heights.Run
			fall := rooms[0].Layout.Walls[run.Wall-1].ThicknessMM * rooms[0].Settled.Waste.Gradient
			inside := run.InvertAt(run.WallAtMM) + run.Outgoing().BoreMM/2
			if len(s.Targets) != 1 || math.Abs(inside-s.Targets[0].LevelMM-fall/2) > 0.05 || fall == 0 {
				t.Errorf("the hole is read at %v, the pipe's middle inside lies at %v and falls %v", s.Targets, inside, fall)
			}
		}
		if s.ID != "base" {
			continue
		}
		if len(s.Targets) != 1 || s.Targets[0].LevelMM != rooms[0].Heights.BaseTopMM {
			t.Errorf("the base is read at %v, its top lies at %v", s.Targets, rooms[0].Heights.BaseTopMM)
		}
	}
}

// Every caution of a job bites in one of its steps: that water scalds where it is tried, that tile is slippery where the floor is tiled.
func TestCautionsBiteInTheirSteps(t *testing.T) {
	in := map[string]string{"c-scald": "water-trial", "us-scald": "water-trial", "c-slip": "floor-tile", "c-solvent": "waste", "c-heating": "heating",
		"c-dust": "base", "c-services": "survey"}
	seen, bored := map[string]bool{}, false
	for _, r := range demotest.Shown(t) {
		minded, again := map[string]string{}, map[string]bool{}
		for _, s := range sequence.Of(&r) {
			for _, id := range s.Minds {
				if s.ID == "bore-joists" { // said once more, where the joists are drilled
					again[id] = true
					continue
				}
				if minded[id] != "" {
					t.Errorf("%s: %s bites twice", r.Settled.Name, id)
				}
				minded[id] = s.ID
			}
		}
		bored = bored || len(r.Joists) > 0
		if drilled := len(r.Joists) > 0; again["c-structure"] != drilled || again["c-services"] != drilled {
			t.Errorf("%s: with %d joists to drill the cautions said once more are %v", r.Settled.Name, len(r.Joists), again)
		}
		for _, c := range r.Cautions {
			id := c.Rule.ID
			if minded[id] == "" || in[id] != "" && minded[id] != in[id] {
				t.Errorf("%s: %s bites in “%s”, want “%s”", r.Settled.Name, id, minded[id], in[id])
			}
			seen[id] = true
		}
	}
	if !bored {
		t.Error("no demo has a joist that is drilled")
	}
	for id := range in {
		if !seen[id] {
			t.Errorf("no demo has %s", id)
		}
	}
}

// What cannot be taken back is told where it is done, and why: a hole that is bored, what is covered, and what is fixed or changed once
// the floor is sealed; nothing else is called so. Common practice, no source.
func TestWhatCannotBeTakenBack(t *testing.T) {
	want := map[string]message.ID{"core": sequence.Bored, "bore-joists": sequence.Bored, "trough": sequence.Covered, "former": sequence.Covered,
		"tanking": sequence.Sealed, "wall-tile": sequence.Covered, "floor-tile": sequence.Covered}
	seen := map[string]bool{}
	for _, r := range demotest.Shown(t) {
		for _, s := range sequence.Of(&r) {
			if s.Final != want[s.ID] {
				t.Errorf("%s: %s: “%s”, want “%s”", r.Settled.Name, s.ID, s.Final, want[s.ID])
			}
			seen[s.ID] = true
		}
	}
	for id := range want {
		if !seen[id] {
			t.Errorf("no demo has the step %s", id)
		}
	}
}

// Who welds nothing is not cautioned of solvents: pipe pushed into rings from a trap that is held by a nut.
func TestSolventsAreOfWhatIsWelded(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		cautioned := slices.ContainsFunc(r.Cautions, func(f rule.Finding) bool { return f.Rule.ID == "c-solvent" })
		if want := r.Settled.Parts.Pipe.Joint == part.Solvent; cautioned != want {
			t.Errorf("%s: cautioned of solvents: %v, its pipe is joined as %s", r.Settled.Name, cautioned, r.Settled.Parts.Pipe.Joint)
		}
	}
}
