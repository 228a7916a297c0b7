package geometry_test

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// sharesIn are the numbers of a hundred in the texts of an id, however deep they stand.
func sharesIn(id message.ID, of ...message.Message) (out []float64) {
	for _, m := range of {
		for _, a := range m.Args {
			switch v := a.Value.(type) {
			case message.Number:
				if m.ID == id {
					out = append(out, float64(v))
				}
			case message.Said:
				out = append(out, sharesIn(id, message.Message(v))...)
			}
		}
	}
	return out
}

// In how many builds a floor comes right is one number, wherever it is told: with the answer and with
// the heights that the base may have. What is not counted is told as being about so much.
func TestTheShareOfBuildsIsOneNumber(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		counted, err := chance.Count(context.Background(), r.Levelled, r.Findings, 500, chance.Seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []*chance.Chances{nil, &counted} {
			a := r.Answer(c)
			lines := a.HeightLines(r)
			told := sharesIn("heights.comes-right", lines...)
			if c == nil || a.Standing == geometry.Stops {
				if len(told) > 0 || len(sharesIn("heights.about", lines...)) == 0 {
					t.Errorf("%s, not counted: %v", r.Settled.Name, lines)
				}
				if stops := a.Standing == geometry.Stops; stops != (lines[len(lines)-1].ID == "heights.not-of-height") {
					t.Errorf("%s, stopped %v: a height is called safe, and no more said: %v", r.Settled.Name, stops, lines)
				}
				continue
			}
			answer := sharesIn(a.ChanceLine().ID, a.ChanceLine())
			if len(told) == 0 || len(answer) != 1 {
				t.Errorf("%s: no share is told: %v, %v", r.Settled.Name, lines, a.ChanceLine())
			}
			for _, n := range told {
				if n != answer[0] {
					t.Errorf("%s: %v with its heights, %v with the answer", r.Settled.Name, n, answer[0])
				}
			}
		}
	}
}

// A base that lies under the floor is told as let down by so much, not as raised by less than nothing.
func TestTheRaiseHasNoSign(t *testing.T) {
	down := 0
	for _, r := range demotest.Shown(t) {
		for _, f := range r.Figures() {
			if f.Of.ID != "figure.raise" && f.Of.ID != "figure.let-down" {
				continue
			}
			rise := f.Value.Args[0].Value.(message.Rise)
			mm := rise.ToMM - rise.FromMM
			sunk := r.Answer(nil).RaiseMM() < 0
			if mm < 0 || sunk != (f.Of.ID == "figure.let-down") {
				t.Errorf("%s: %s of %v", r.Settled.Name, f.Of.ID, mm)
			}
			if sunk {
				down++
			}
		}
	}
	if down == 0 {
		t.Error("no demo's base lies under the floor")
	}
}

// What counts as flush, within 3 mm by the trade's word, is called so, and how far it is off stands under
// it as soon as that shows in the job's units: the third demo's shower lies 0.34 over the room, which shows
// no millimetre, and with a room lower by 2 it lies 2 up; the fourth's lies 0.53 under it, 1 down, which is
// no sixteenth of an inch.
func TestWhatCountsAsFlushSaysHowFarItIsOff(t *testing.T) {
	for name, c := range map[string]struct {
		demo   int
		change func(*job.Job)
		want   string
	}{
		"as good as level": {2, func(*job.Job) {}, "figure.step-line{where: rod.room, level: 29 mm over the datum}"},
		"up":               {2, func(j *job.Job) { j.Layers.Room.Tile.ThicknessMM -= 2 }, "figure.flush-up{mm: 2.34 mm up}"},
		"down":             {3, func(*job.Job) {}, "figure.flush-down{mm: -0.53 mm up}"},
		"down in inches":   {3, func(j *job.Job) { j.Units = unit.Imperial }, "figure.step-line{where: rod.room, level: 13 mm over the datum}"},
	} {
		j := demotest.Shown(t)[c.demo].Stated.Clone()
		c.change(&j)
		f := geometry.Evaluate(j, demotest.Packs(t)[j.Region]).Figures()[0]
		got := regexp.MustCompile(`\d+\.\d+`).ReplaceAllStringFunc(f.Line.String(), func(s string) string {
			mm, _ := strconv.ParseFloat(s, 64)
			return strconv.FormatFloat(math.Round(mm*100)/100, 'g', -1, 64)
		})
		if f.Value.ID != "figure.flush" || got != c.want {
			t.Errorf("%s: %s, %s, want %s", name, f.Value, got, c.want)
		}
	}
}

// Three figures on the plate that do not add up would be wrong to whoever adds them: under a step stands one
// level at most. The first demo's is 118.46, between 13.38 and 131.84, told as 13 and 132.
func TestTheFiguresOfAStepDoNotDisagree(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		f := r.Figures()[0]
		levels := 0
		for _, a := range f.Line.Args {
			if _, is := a.Value.(message.Level); is {
				levels++
			}
		}
		if levels > 1 {
			t.Errorf("%s: %s over %s", r.Settled.Name, f.Value, f.Line)
		}
	}
}

// The way out is told at the level that the schedule has for it, whether a wall is bored there or a stack stands in it.
func TestTheWayOutIsToldAtOneLevel(t *testing.T) {
	told := 0
	for _, r := range demotest.Shown(t) {
		for _, f := range r.Figures() {
			if f.Of.ID != "figure.way-out" {
				continue
			}
			for _, row := range r.Schedule {
				if row.ID.Of != buildup.ExitInvert {
					continue
				}
				told++
				if want := message.Of("figure.level", message.At("level", row.Value)).String(); f.Value.String() != want {
					t.Errorf("%s: %v, in the schedule %s", r.Settled.Name, f.Value, want)
				}
			}
		}
	}
	if told < 8 {
		t.Errorf("only %d ways out", told)
	}
}
