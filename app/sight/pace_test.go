package sight

import (
	"testing"
	"time"

	"underfall/app/guard"
)

// paced is something that follows a drag, drawn by hand: Begun when asked to, Drawn when the test says so.
func paced(t *testing.T) (p *Pace, drawn *int, settle func()) {
	queue := make(chan func(), 100)
	s := New(func(f func()) { queue <- f }, guard.New(func(f guard.Fault) { t.Error(f) }, nil))
	drawn = new(int)
	p = s.NewPace("fault.drawing", func() { *drawn++; p.Begun() })
	return p, drawn, func() {
		for {
			select {
			case f := <-queue:
				f()
			default:
				return
			}
		}
	}
}

// What follows a drag is drawn at once where nothing is, and what is asked for meanwhile once, after twice as long as that
// took.
func TestWhatFollowsTakesAThirdOfTheTime(t *testing.T) {
	p, drawn, settle := paced(t)
	p.Ask()
	if *drawn != 1 || p.Owes() {
		t.Fatalf("asked for once it is drawn %d times, and owed %v", *drawn, p.Owes())
	}
	p.Ask()
	p.Ask()
	if *drawn != 1 || !p.Owes() {
		t.Fatalf("while it is being drawn another is begun: %d, owed %v", *drawn, p.Owes())
	}
	const took = 20 * time.Millisecond // the hand does not rest as soon
	p.began = p.began.Add(-took)
	ended := time.Now()
	p.Drawn()
	if settle(); *drawn != 1 && time.Since(ended) < 2*took {
		t.Fatal("it is drawn again at once")
	}
	for *drawn == 1 {
		time.Sleep(time.Millisecond)
		settle()
	}
	if after := time.Since(ended); *drawn != 2 || p.Owes() || after < 2*took {
		t.Errorf("%v after the first, which took %v, there are %d, and another is owed %v", after, took, *drawn, p.Owes())
	}
	time.Sleep(2 * handRests)
	if settle(); *drawn != 2 {
		t.Errorf("%d drawn where nothing more was asked for", *drawn)
	}
}

// However long drawing it takes, it is drawn as soon as the hand rests.
func TestWhatFollowsIsThereWhenTheHandRests(t *testing.T) {
	p, drawn, settle := paced(t)
	p.Ask()
	p.began = p.began.Add(-time.Hour)
	p.Drawn()
	p.Ask()
	for late := time.Now().Add(time.Minute); *drawn == 1 && time.Now().Before(late); settle() {
		time.Sleep(time.Millisecond)
	}
	if *drawn != 2 || p.Owes() {
		t.Errorf("a minute after the hand came to rest it is drawn %d times, and owed %v", *drawn, p.Owes())
	}
}

// What is drawn out of its turn is not owed any more.
func TestDrawnOutOfItsTurnItIsNotOwed(t *testing.T) {
	p, drawn, settle := paced(t)
	p.Ask()
	p.began = p.began.Add(-time.Hour)
	p.Drawn()
	p.Ask()
	p.Begun()
	time.Sleep(2 * handRests)
	if settle(); *drawn != 1 || p.Owes() {
		t.Errorf("it is drawn %d times by itself, and owed %v", *drawn, p.Owes())
	}
}
