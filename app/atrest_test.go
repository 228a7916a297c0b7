package app

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"underfall/app/guard"
	"underfall/app/roomtest"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// queued is what runs on a test's goroutine, without a window, and the guard of what runs beside it.
func queued(t *testing.T) (roomtest.Queue, *guard.Guard) {
	q := roomtest.NewQueue()
	tests[t] = q
	t.Cleanup(func() { delete(tests, t) })
	return q, guard.New(func(f guard.Fault) { t.Errorf("%+v", f) }, nil)
}

// What holds for every job that is built the same is not worked out anew of another light or another place of a thing, unless it was
// stopped before it was shown, or another job was shown in between.
func TestAtRestKeeps(t *testing.T) {
	q, g := queued(t)
	lit := func(hour float64) (r geometry.Result) {
		r.Stated = job.New()
		r.Stated.Picture = &job.Picture{Light: job.Light{Kind: job.LightDay, Hour: hour}}
		return r
	}
	worked, shown := make(chan bool, 10), 0
	a := &atRest[string]{do: q.Do, guard: g, part: partChances, keeps: true, applies: func(geometry.Result) bool { return true },
		show: func(string) { shown++ },
		work: func(context.Context, geometry.Result) (string, error) { worked <- true; return "", nil }}
	a.follow(lit(9))
	until(t, "it worked out", func() bool { return shown == 1 })
	a.hold(lit(9.5)) // as while something is dragged
	for _, hour := range []float64{10, 11} {
		a.follow(lit(hour))
	}
	if !a.resting() || len(worked) != 1 {
		t.Errorf("of another hour it is worked out %d times", len(worked))
	}
	other := lit(12)
	other.Stated.Shower.WidthMM++
	a.follow(other)
	a.stop()
	a.follow(other)
	until(t, "what was stopped worked out", func() bool { return shown == 2 })
	a.hold(lit(12)) // a drag away, and back
	a.follow(other)
	until(t, "what was shown of nothing for a while worked out", func() bool { return shown == 3 })
}

// What few builds tell does not take the place of what many do, where it comes late.
func TestFewBuildsComeLate(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return w.answer.Answer().Counted })
	few := *w.answer.Chances()
	few.Rough = true
	w.showChances(few)
	if !w.answer.Answer().Counted {
		t.Error("what was counted in full is told as being counted")
	}
}

// What is worked out of a result is shown, of none but the latest, and none of one that has
// problems or that there is nothing to be worked out of; stopped, what is going on ends.
func TestAtRest(t *testing.T) {
	q, g := queued(t)
	named := func(name string) (r geometry.Result) {
		r.Stated.Name = name
		return r
	}
	for _, after := range []time.Duration{0, 20 * time.Millisecond} {
		var shown []string
		ended := make(chan string, 10)
		a := &atRest[string]{do: q.Do, guard: g, part: partChances, after: after,
			applies: func(r geometry.Result) bool { return r.Stated.Name != "nothing in it" },
			show:    func(s string) { shown = append(shown, s) },
			work: func(ctx context.Context, r geometry.Result) (string, error) {
				if strings.HasPrefix(r.Stated.Name, "long") {
					<-ctx.Done()
					ended <- r.Stated.Name
					return "", ctx.Err()
				}
				return r.Stated.Name, nil
			}}
		began := time.Now()
		a.follow(named("long one"))
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("to follow takes %v: it waits for what it begins", took)
		}
		if after == 0 {
			a.follow(named("short"))
			if got := <-ended; got != "long one" {
				t.Errorf("%q has ended", got)
			}
			until(t, "the short one", func() bool { return len(shown) == 1 })
		} else { // dropped before it has begun
			a.follow(named("short"))
			until(t, "the short one", func() bool { return len(shown) == 1 })
			if len(ended) > 0 {
				t.Error("what had not rested was begun")
			}
		}
		a.follow(named("nothing in it"))
		bad := named("bad")
		bad.Problems = job.Problems{{}}
		a.follow(bad)
		time.Sleep(2*after + 20*time.Millisecond)
		settle(t)
		a.follow(named("late"))
		time.Sleep(2*after + 20*time.Millisecond)
		a.stop() // it is done by now, but not yet shown
		settle(t)
		if after == 0 && !slices.Equal(shown, []string{"short"}) {
			t.Errorf("shown is %q", shown)
		}
		a.follow(named("long last"))
		time.Sleep(2*after + 20*time.Millisecond)
		settle(t)
		a.stop()
		select {
		case got := <-ended:
			if got != "long last" {
				t.Errorf("%q has ended", got)
			}
		case <-time.After(time.Minute):
			t.Error("stopped it goes on")
		}
	}
}

// A headline that only sampling tells says so from the first few builds, and full counting
// agrees. Tile laid to no more than the least fall is too flat in half of all builds, and so is a
// pipe near its own: from memory of what tolerances do to a limit that is planned to be met exactly.
func TestTheHeadlineSaysAtOnceWhatSamplingTells(t *testing.T) {
	for _, c := range []struct{ demo, field, to string }{
		{"9-level-entry", "former.slope", "1:50"}, {"7-hall-bath-no-curb", "waste.gradient", "2.1 %"},
	} {
		w, log := openWindow(t, Options{File: "../assets/demos/" + c.demo + ".json", Builds: usualBuilds})
		until(t, "the count", func() bool { return !w.replaced && w.answer.Answer().Counted })
		if w.answer.Plate().Standing() != geometry.Sound {
			t.Fatalf("%s stands %s", c.demo, w.answer.Plate().Standing())
		}
		log.Reset()
		enter(w, numberField(t, w, c.field), c.to)
		until(t, "the full count", func() bool { return strings.Contains(log.String(), "counted true") })
		var said []string
		for _, l := range strings.Split(log.String(), "\n") {
			if s, ok := strings.CutPrefix(l, "answer "); ok {
				said = append(said, s)
			}
		}
		if len(said) < 2 || !strings.HasPrefix(said[0], "tight") || !strings.HasSuffix(said[0], "counted false") || !strings.HasPrefix(said[len(said)-1], "tight") {
			t.Errorf("%s: the answers are %q", c.demo, said)
		}
		if w.answer.Plate().Standing() != geometry.Tight {
			t.Errorf("%s: the plate says %s", c.demo, w.answer.Plate().Standing())
		}
	}
}

// Rough chances tell how a job stands, and no number: the share is being counted, and no cards of
// what may come to be are listed yet.
func TestRoughChancesGiveNoNumber(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return w.answer.Answer().Counted })
	full := w.answer.Answer()
	rough := *w.answer.Chances()
	rough.Rough = true
	w.answer.ShowRisks(rough)
	a := w.answer.Answer()
	if a.Standing != full.Standing || math.Abs(a.Chance-full.Chance) > 1e-12 || a.Counted || len(a.Later) > 0 || a.ChanceLine().ID != "answer.chance-not-counted" {
		t.Errorf("roughly counted it is %s, %v, with %d cards; %s", a.Standing, a.Counted, len(a.Later), a.ChanceLine().ID)
	}
	w.answer.ShowRisks(chance.Chances{Risks: rough.Risks, Fits: rough.Fits, MarginMM: rough.MarginMM})
	if len(w.answer.Answer().Later) != len(full.Later) {
		t.Error("counted in full the cards do not come back")
	}
}

// What is worked out at rest waits until what goes before it is drawn, but not for ever.
func TestAtRestWaitsForWhatGoesBefore(t *testing.T) {
	q, g := queued(t)
	ready, worked := false, make(chan time.Time, 1)
	a := &atRest[string]{do: q.Do, guard: g, part: partChances, after: time.Millisecond,
		applies: func(geometry.Result) bool { return true }, ready: func() bool { return ready }, show: func(string) {},
		work: func(context.Context, geometry.Result) (string, error) { worked <- time.Now(); return "", nil }}
	began := time.Now()
	a.follow(geometry.Result{})
	until(t, "what is not ready is waited for no longer", func() bool { return len(worked) == 1 })
	if waited := (<-worked).Sub(began); waited < readyWithin {
		t.Errorf("it waited for %v", waited)
	}
	began = time.Now()
	a.follow(geometry.Result{})
	for range 3 {
		time.Sleep(readyEvery)
		settle(t)
	}
	if len(worked) > 0 && time.Since(began) < readyWithin {
		t.Fatal("it does not wait")
	}
	ready = true
	until(t, "what is ready worked out", func() bool { return len(worked) == 1 })
	a.follow(geometry.Result{})
	a.pause()
	a.pause()
	if !a.resting() {
		t.Error("paused it goes on")
	}
}

// While a value is typed nothing is counted beside it; of what it comes to that begins, also where it is the job as it was.
func TestTypingIsNotCountedBeside(t *testing.T) {
	w, _ := openWindow(t, Options{Builds: 300000}) // as long as it takes
	counting := func() (on int) {
		for _, f := range w.followers {
			if !f.resting() {
				on++
			}
		}
		return on
	}
	full := w.followers[1].(*atRest[chance.Chances])
	until(t, "the count", func() bool { return full.cancel != nil })
	depth, _ := job.Find("shower.depthMM")
	for _, mm := range []float64{950, 95} { // 95 is refused
		serial := full.serial
		w.asks().Preview(edit.Number(depth, mm))
		if full.cancel != nil || full.serial == serial {
			t.Errorf("typing %v it is counted on", mm)
		}
		until(t, "the count of what it comes to", func() bool { return counting() > 0 && full.cancel != nil })
	}
}
