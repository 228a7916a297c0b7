package sight

import (
	"time"

	"underfall/geometry/message"
)

// Pace has what only follows something that is dragged drawn in a third of the time at most, so that what the hand holds
// goes before it: not again before twice as much time has gone by as it took, unless the hand rests. It belongs to the
// window's goroutine.
type Pace struct {
	sight *Sight
	part  message.ID // what is drawn is called, where drawing it breaks
	draw  func()
	began time.Time // when what is being drawn was begun; zero while nothing is
	free  time.Time // when it may be drawn again while something is dragged
	asked time.Time // when what is not being drawn yet was asked for; zero for nothing
	wait  func()    // has it not drawn by itself when its turn comes; nil where it would not be
}

// handRests is how long nothing must have changed for the hand to rest: longer than steps of a drag are apart.
const handRests = 60 * time.Millisecond

// leavesFree is how many times as long as drawing took nothing of it is drawn again: what only follows a drag takes a third
// of the time at most, and leaves the rest to what the hand holds.
const leavesFree = 2

// NewPace makes one for a part that is drawn by a function, which tells Begun of it.
func (s *Sight) NewPace(part message.ID, draw func()) *Pace {
	return &Pace{sight: s, part: part, draw: draw}
}

// Ask has it drawn in its turn.
func (p *Pace) Ask() {
	p.asked = time.Now()
	p.turn()
}

// turn draws what is owed, or sees when its turn comes.
func (p *Pace) turn() {
	p.stop()
	if !p.began.IsZero() {
		return // Drawn goes on
	}
	wait := min(time.Until(p.free), time.Until(p.asked.Add(handRests)))
	if wait <= 0 {
		p.draw()
		return
	}
	p.wait = p.sight.After(wait, p.part, p.draw)
}

// Owes tells whether something that was asked for is not being drawn yet.
func (p *Pace) Owes() bool { return !p.asked.IsZero() }

// Begun tells that it is being drawn as it is now, in its turn or not.
func (p *Pace) Begun() {
	p.stop()
	p.asked, p.began = time.Time{}, time.Now()
}

// Drawn tells that what was begun has been drawn, or cannot be.
func (p *Pace) Drawn() {
	if p.began.IsZero() {
		return
	}
	p.free = time.Now().Add(leavesFree * time.Since(p.began))
	if p.began = (time.Time{}); p.Owes() {
		p.turn()
	}
}

// stop has nothing drawn by itself.
func (p *Pace) stop() {
	if p.wait != nil {
		p.wait()
		p.wait = nil
	}
}
