package ways

import (
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// The best run by each way out stands before a second by any: to the stated exit, then through each wall and into each stack, in
// the order in which the search has them; what stops most runs to the stated exit is said with them.
func TestTheBestByEachWayOutComesFirst(t *testing.T) {
	run := func(of job.Exit, moves bool) search.Alternative {
		return search.Alternative{Job: job.Job{Waste: job.Waste{Exit: of}}, MovesExit: moves}
	}
	wall := func(wall int, mm float64) job.Exit { return job.Exit{Kind: job.ExitWall, Wall: wall, OffsetMM: mm} }
	stack := job.Exit{Kind: job.ExitStack}
	lower := func(a search.Alternative) search.Alternative { // another run worth telling
		a.RaiseMM -= 5
		return a
	}
	s := search.Outcome{Found: []search.Alternative{run(wall(0, 70), false), lower(run(wall(0, 70), false)),
		run(wall(1, 60), true), lower(run(wall(1, 260), true)), run(stack, true), run(wall(2, 60), true)}}
	for i, at := range []int{0, 2, 4, 5, 1, 3} {
		if all := Listings(s); len(all) != len(s.Found) || all[i].Run != &s.Found[at] {
			t.Fatalf("listed %d is not found %d, or not all %d are: %d", i, at, len(s.Found), len(all))
		}
	}
	bare := rule.Rule{ID: "bare"}
	s = search.Outcome{Found: s.Found[2:], Hindrance: &search.Hindrance{Tried: 5, By: []search.Hinder{{Rule: bare, Runs: 4}}}}
	if note := FoundNote(s, job.New(), false); !strings.Contains(note.String(), bare.Heading().String()) {
		t.Errorf("what stops runs to the stated exit is not said: %s", note)
	}
	s.Found, s.Relaxations = nil, []search.Relaxation{{}}
	note := FoundNote(s, job.New(), false).String()
	if why, leads := strings.Index(note, "run.first-hinder"), strings.Index(note, "run.by-changes"); why < 0 || leads < why {
		t.Errorf("between what leads on to the list and the list stands another thing: %s", note)
	}
}
