package sheet_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// textOf is the text of a sheet as it is laid out.
func textOf(t *testing.T, r geometry.Result, kind sheet.Kind) string {
	t.Helper()
	need(t, "pdftotext")
	return run(t, "pdftotext", "-layout", written(t, r, kind, sheet.Papers()[0]), "-")
}

// A fitter adds up what is built: every top and how it is read down make the laser line's metre, in whole millimetres, and a layer is as
// thick as what lies between its top and the one under it, but for what the tops are rounded by.
func TestBuiltUpAddsUp(t *testing.T) {
	layer := regexp.MustCompile(`([\d.]+)\s+\+([\d.]+)\s+([\d.]+)`)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	pairs := 0
	for _, r := range demotest.Shown(t) {
		if r.Settled.Units != unit.Metric || len(r.Settled.Laser.SetUps) > 0 {
			continue
		}
		_, text, _ := strings.Cut(textOf(t, r, sheet.Fitter), "Built up")
		text, _, _ = strings.Cut(text, "To settle")
		thick, top, whole := 0.0, 0.0, false // of the first column's layer above
		for line := range strings.SplitSeq(text, "\n") {
			all := layer.FindAllStringSubmatch(line, -1)
			for _, m := range all {
				if got := number(m[2]) + number(m[3]); math.Abs(got-1000) > 1e-9 || strings.Contains(m[2], ".") {
					t.Errorf("%s: %q makes %v, want 1000", r.Settled.Name, m[0], got)
				}
			}
			const firstColumn = 40 // characters
			first := len(all) > 0 && layer.FindStringIndex(line)[0] < firstColumn
			if first && whole {
				pairs++
				if got := top - number(all[0][2]); math.Abs(got-thick) > 1 {
					t.Errorf("%s: a layer of %v is %v from top to top: %s", r.Settled.Name, thick, got, line)
				}
			}
			if whole = first; whole {
				thick, top = number(all[0][1]), number(all[0][2])
			}
		}
	}
	if pairs < 20 {
		t.Errorf("only %d layers were compared", pairs)
	}
}

// How the base's height comes about adds up as it is read: the bare floor, what the base comes over it or lies under it, its top, which is
// the one at the head of the page.
func TestTheRaiseAddsUp(t *testing.T) {
	says := regexp.MustCompile(`Base: .*?([+-]?\d+)(?: there)?; (\d+) (more|less) is the top of the base, ([+-]?\d+) everywhere`)
	compared := 0
	for _, r := range demotest.Shown(t) {
		if r.Settled.Units != unit.Metric {
			continue
		}
		m := says.FindStringSubmatch(strings.Join(strings.Fields(textOf(t, r, sheet.Fitter)), " "))
		if m == nil {
			t.Errorf("%s: the raise is not told", r.Settled.Name)
			continue
		}
		compared++
		floor, _ := strconv.Atoi(m[1])
		by, _ := strconv.Atoi(m[2])
		top, _ := strconv.Atoi(m[4])
		if m[3] == "less" {
			by = -by
		}
		if floor+by != top || top != int(math.Round(r.Heights.BaseTopMM)) || floor != int(math.Round(r.Heights.FloorHighMM)) {
			t.Errorf("%s: %q, and the base's top is at %v over a floor at %v", r.Settled.Name, m[0], r.Heights.BaseTopMM, r.Heights.FloorHighMM)
		}
	}
	if compared < 8 {
		t.Errorf("only %d sheets were compared", compared)
	}
}

// A floor that slopes has its level told with where it is read, a level one without.
func TestASlopingFloorsLevelHasItsPlace(t *testing.T) {
	r := demotest.Shown(t)[0]
	text := saidOn(drawnPages(t, r, sheet.Fitter, sheet.Papers()[0]))
	if !regexp.MustCompile(`Room, finished floor, \d+ from wall A and \d+ from wall D`).MatchString(text) {
		t.Error("the room's level has no place")
	}
	if !strings.Contains(text, "Structural floor, highest, at wall C and at wall B") {
		t.Error("the highest of the bare floor has no place")
	}
	if text := saidOn(drawnPages(t, demotest.Shown(t)[2], sheet.Fitter, sheet.Papers()[0])); strings.Contains(text, "Room, finished floor,") {
		t.Error("a level floor's level has a place")
	}
}

// The height of the base is the same number on paper, in the answer and in the window's figures, and adds up with the levels it lies
// between as they are read, wherever between two millimetres the floor lies.
func TestTheRaiseIsTheSameEverywhere(t *testing.T) {
	number := regexp.MustCompile(`-?\d+`)
	says := regexp.MustCompile(`: \+?(-?\d+) there; (\d+) (more|less) is the top of the base, \+?(-?\d+)`)
	first := func(text string) string { return number.FindString(strings.ReplaceAll(text, "+", "")) }
	told := book(t).Drawn()
	for tenths := range 10 {
		j := demotest.Results(t)[0].Stated
		for i := range j.SpotLevels {
			j.SpotLevels[i].LevelMM += float64(tenths) / 10
		}
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		text := textOf(t, r, sheet.Fitter)
		line := says.FindStringSubmatch(strings.Join(strings.Fields(text), " "))
		if line == nil {
			t.Fatalf("no line of the raise:\n%s", text)
		}
		from, _ := strconv.Atoi(line[1])
		by, _ := strconv.Atoi(line[2])
		if to, _ := strconv.Atoi(line[4]); from+by != to {
			t.Errorf("%s and %s are not %s", line[1], line[2], line[4])
		}
		if answered := first(told.Say(r.Answer(nil).Lines()[0])); answered != line[2] {
			t.Errorf("after %d tenths the answer says %s, the paper %s", tenths, answered, line[2])
		}
		if made := first(told.Say(r.Made(r.Raises.Now))); made != line[2] {
			t.Errorf("after %d tenths it is made up to %s, on paper to %s", tenths, made, line[2])
		}
		for _, f := range r.Figures() {
			if f.Of.ID == "figure.raise" && first(told.Say(f.Value)) != line[2] {
				t.Errorf("after %d tenths the figure is %s, on paper %s", tenths, told.Say(f.Value), line[2])
			}
		}
	}
}

// Of a base let in the ledgers are fixed first: their top is among the heights, the levels and the order of work, of one on a slab nowhere.
func TestLedgersHaveTheirHeight(t *testing.T) {
	rooms := demotest.Results(t)
	for i, want := range map[int][2]int{0: {0, 0}, 2: {1, 2}} { // listed twice: in the order of work and among the levels
		text := strings.Join(strings.Fields(textOf(t, rooms[i], sheet.Fitter)), " ")
		if got := [2]int{strings.Count(text, "Top of ledgers"), strings.Count(text, "Ledgers, top")}; got != want {
			t.Errorf("%s: %d among the heights, %d in lists, want %d:\n%s", rooms[i].Settled.Name, got[0], got[1], want, text)
		}
	}
}

// What nobody has stated stands on the first page: an assumed floor, one that is not known, and that it was read nowhere.
func TestWhatNobodyStatedIsTold(t *testing.T) {
	r := demotest.Shown(t)[1]
	r.Settled.SpotLevels = nil
	for standing, says := range map[job.Standing]string{job.Assumed: "(assumed)", job.NotKnown: "(not known)"} {
		r.Settled.Standings = map[string]job.Standing{"floor.kind": standing}
		first, _, _ := strings.Cut(textOf(t, r, sheet.Fitter), "\f")
		first = strings.Join(strings.Fields(first), " ")
		if !strings.Contains(first, "Structural floor "+says) || !strings.Contains(first, "taken as level") {
			t.Errorf("%s is not told:\n%s", standing, first)
		}
	}
}

// Boards are drawn large enough to be sawn by: a layer that is no longer than three metres at a thirtieth or larger, and a table that
// goes on has its head again.
func TestBoardsAreDrawnLarge(t *testing.T) {
	scale := regexp.MustCompile(`laid like this, 1:(\d+)`)
	layers := 0
	for _, r := range demotest.Shown(t) {
		if r.Settled.Units != unit.Metric {
			continue
		}
		text := textOf(t, r, sheet.Cutting)
		for _, m := range scale.FindAllStringSubmatch(text, -1) {
			layers++
			if n, _ := strconv.Atoi(m[1]); n > 30 {
				t.Errorf("%s: a layer is drawn 1:%d", r.Settled.Name, n)
			}
		}
		for i, page := range strings.Split(text, "\f") {
			if _, rest, _ := strings.Cut(page, "datum"); regexp.MustCompile(`^\s*\d+ +\d+ +\d+ `).MatchString(rest) {
				t.Errorf("%s: page %d goes on with a table without its head", r.Settled.Name, i+1)
			}
		}
	}
	if layers < 15 {
		t.Errorf("only %d layers", layers)
	}
}

// A room of 45 m is 225 mm wide in the smallest scale, 1:200: too much for A4 between its margins, which is told, and the drawing without
// a scale is whole. A3 has room for it.
func TestPaperTooSmallIsTold(t *testing.T) {
	j := demotest.Results(t)[0].Stated
	for i, p := range j.Room.Outline {
		if p.X() > 2000 {
			j.Room.Outline[i][0] = 45000
		}
	}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	need(t, "pdftotext")
	for i, told := range map[int]bool{0: true, 1: false} { // A4, A3
		text := run(t, "pdftotext", "-layout", written(t, r, sheet.Fitter, sheet.Papers()[i]), "-")
		if got := strings.Contains(text, "Too large for A4 even at 1:200"); got != told || strings.Contains(text, "Plan not to scale") != told {
			t.Errorf("%s: it is told: %v\n%s", sheet.Papers()[i].Key, got, text[:min(len(text), 900)])
		}
	}
}
