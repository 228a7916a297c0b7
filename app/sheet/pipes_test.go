package sheet_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/demotest"
	"underfall/geometry/unit"
)

// The hole through the wall is one size wherever it is told: the drill beside the least it may be, in the order of work and on the plan.
func TestTheHoleIsOneSize(t *testing.T) {
	told := 0
	for _, r := range demotest.Shown(t) {
		core, ok := r.Heights.Core(&r.Settled, &r.Layout)
		if !ok || r.Settled.Units != unit.Metric {
			continue
		}
		told++
		size := fmt.Sprint(r.Pack.CoreDrills.For(core.LeastMM))
		text := saidOn(drawnPages(t, r, sheet.Fitter, sheet.Papers()[0]))
		for _, want := range []string{"Hole " + size + " across.", "Hole through the wall, at least (drill " + size + ")"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q", r.Settled.Name, want)
			}
		}
	}
	if told < 6 {
		t.Errorf("only %d holes were looked at", told)
	}
}

// Under deep joists the lengths across the way in are told at the foot of the section, and under a slope the headroom at both its ends.
func TestLengthsAndHeadroomAreBothSeen(t *testing.T) {
	r := demotest.Shown(t)[1]
	_, text, _ := strings.Cut(textOf(t, r, sheet.Fitter), "Section across the way in")
	text, _, _ = strings.Cut(text, "Along the waste")
	if n := strings.Count(text, "Headroom "); n != 2 {
		t.Errorf("headroom is told %d times:\n%s", n, text)
	}
	depth := strconv.Itoa(int(r.Layout.Corners[3].Sub(r.Layout.Corners[0]).Len()))
	foot := text[strings.LastIndex(text, "Structural floor"):]
	if len(regexp.MustCompile(`\b\d{2,4}\b`).FindAllString(foot, -1)) < 3 {
		t.Errorf("the lengths of %s are not at the foot:\n%s", depth, foot)
	}
}

// What is seen of a pipe and what goes into its sockets add up to what it is sawn to, and each is sawn on the order as it is here.
func TestPipesAddUp(t *testing.T) {
	row := regexp.MustCompile(`\s(\d+)\s+(\d+)\s+(\d+)$`)
	rows := 0
	for _, r := range demotest.Shown(t) {
		if r.Settled.Units != unit.Metric {
			continue
		}
		_, text, _ := strings.Cut(textOf(t, r, sheet.Fitter), "Pipe, as it is sawn")
		text, _, _ = strings.Cut(text, "Section")
		order := strings.Join(strings.Fields(textOf(t, r, sheet.Order)), " ")
		for line := range strings.SplitSeq(text, "\n") {
			m := row.FindStringSubmatch(strings.TrimRight(line, " "))
			if m == nil {
				continue
			}
			rows++
			var mm [3]float64
			for i := range mm {
				mm[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			if math.Abs(mm[0]+mm[1]-mm[2]) > 1 || !strings.Contains(order, m[3]+" mm (") {
				t.Errorf("%s: %s", r.Settled.Name, line)
			}
		}
	}
	if rows < 10 {
		t.Errorf("only %d pieces were looked at", rows)
	}
}

// A trap that does not stand under the middle of its drain is told how far off, so that both places are believed; a shower that holds no
// water back is told before work begins.
func TestWhatMakesAFitterWonderIsTold(t *testing.T) {
	off, over := 0, 0
	for _, r := range demotest.Shown(t) {
		text := saidOn(drawnPages(t, r, sheet.Fitter, sheet.Papers()[0]))
		if strings.Contains(text, "along the drain from its middle") || strings.Contains(text, "off its middle line") {
			off++
		}
		if r.Water.Reserve.Minutes == 0 {
			over++
			if !strings.Contains(text, "runs over at once when the waste blocks") {
				t.Errorf("%s: nothing of no reserve", r.Settled.Name)
			}
		}
	}
	if off == 0 || over == 0 {
		t.Errorf("%d traps off the middle, %d without reserve", off, over)
	}
}
