package layout_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Studs of 47 at 200, 600 and on: in the wall of the door, 2400 long with the opening from
// 1500 to 2260, at 200, 600, 1000, 1400; in the wall of 1900 at 200 to 1800.
func TestStudsByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := f.job(job.New())
		l := place(t, j)
		n := map[int]int{}
		for _, s := range l.Studs {
			n[s.Wall]++
			nearArea(t, "a stud", plan.FromRing(s.Ring), 47*100)
		}
		if a, b := n[f.wall(0, 4)], n[f.wall(1, 4)]; a != 4 || b != 5 || len(n) != 2 {
			t.Errorf("studs by wall: %v, want 4 and 5", n)
		}
		if _, _, _, ok := l.DrainStuds(&j); ok {
			t.Error("a drain at a wall of masonry has studs behind it")
		}
	})
}

// The drain's wall of studs, walked from x = 2400 to 0: the drain of 800 about x = 700
// begins 1300 along it, and studs stand behind it at 1400 and 1800.
func TestStudsBehindTheDrain(t *testing.T) {
	j := job.New()
	j.Room.Walls[2] = j.Room.Walls[0]
	l := place(t, j)
	w, start, studs, ok := l.DrainStuds(&j)
	if !ok || w.Index != 2 || len(studs) != 2 {
		t.Fatalf("%v, wall %d, %+v", ok, w.Index, studs)
	}
	near(t, "start", start, 1300)
	near(t, "first", studs[0].AtMM, 1400)
	near(t, "second", studs[1].AtMM, 1800)
	nearPoint(t, "middle of the first", plan.FromRing(studs[0].Ring).Centroid(), plan.Point{1000, 1950})
	// As long as its side, it keeps 13 off both ends: 1374 of 1400, from 1013 to 2387, with
	// studs at 1400, 1800 and 2200.
	j.Drain.LengthMM = 0
	l = place(t, j)
	if _, start, studs, ok = l.DrainStuds(&j); !ok || len(studs) != 3 {
		t.Fatalf("behind a drain as long as its side: %v, %+v", ok, studs)
	}
	near(t, "start", start, 1013)
	near(t, "third", studs[2].AtMM, 2200)
	j.Former.Fall = job.FallMid
	l = place(t, j)
	if _, _, _, ok := l.DrainStuds(&j); ok {
		t.Error("a drain in the middle stands at a wall")
	}
}
