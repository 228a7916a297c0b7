// Package settle makes a change of a job so that the job still means something: what is typed
// keeps its value, what hangs on it and is not held moves as little as it must, and where only
// something held is in the way nothing changes and there is a refusal with its cures. Whatever
// moved is told.
package settle

import (
	"math"
	"slices"
	"strings"
	"sync"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Settled is what has become of a change.
type Settled struct {
	// Job is the job with the change made, or as it was where the change is refused.
	Job job.Job
	// Moved is what moved along with the change, beside what the change is about.
	Moved []Moved
	// Refused is why nothing was changed; nil where it was.
	Refused *Refusal
}

// Moved is one thing that moved along with a change: what is told of it, and the paths in the job's
// file of what is another than before, none where something is only told.
type Moved struct {
	What message.Message
	Keys []string
}

// Refusal is why a change is not made, and what would let it be.
type Refusal struct {
	What message.Message
	// Edit is the change that is refused.
	Edit edit.Edit
	// Problems are what the job would mean nothing for.
	Problems job.Problems
	// Cures were tried: each settles. The one that moves least comes first.
	Cures []Cure
}

// Cure is a change that can be made in the place of one that was refused.
type Cure struct {
	What message.Message
	Edit edit.Edit
}

// Do makes a change of a job that means something, and settles what hangs on it. A drag goes as far as
// it can.
func Do(before job.Job, e edit.Edit) Settled {
	s, problems := settled(&before, e, heldIn(&before))
	if len(problems) == 0 {
		return Settled{Job: s.job, Moved: s.moved()}
	}
	if far, ok := s.asFar(); ok {
		return Settled{Job: far.job, Moved: far.moved()}
	}
	return Settled{Job: before, Refused: s.refusal(problems)}
}

// asFar is a drag that is refused as far as it can go; ok is false for any other edit, and where it can
// go nowhere.
func (s *settler) asFar() (far *settler, ok bool) {
	to, ok := s.edit.PartWay(*s.before)
	if !ok {
		return nil, false
	}
	const halvings = 10
	good, bad := 0.0, 1.0
	for range halvings {
		share := (good + bad) / 2
		if other, does := s.settles(to(share), s.held); does {
			good, far = share, other
		} else {
			bad = share
		}
	}
	return far, far != nil
}

// heldIn tells of paths in a job's file whether they lead to what a person holds.
func heldIn(j *job.Job) func(key string) bool {
	return func(key string) bool { return j.StandingOf(key) == job.Held }
}

// settler settles one change.
type settler struct {
	before  *job.Job
	earlier earlier
	edit    edit.Edit
	held    func(key string) bool
	// applied is the job as the edit leaves it, edited where it differs from the one before.
	applied job.Job
	edited  []string
	states  []string
	// added is a thing that the edit has put into a list: nobody has said where it goes. Empty for none.
	added string
	// job is the one that is being settled.
	job job.Job
	// resettled tells that more was settled than the edit itself did.
	resettled bool
	// keepsStated tells that sizes of the shower that somebody has stated do not give way yet.
	keepsStated bool
	// round is what openings in joists may be cut round, in the job before and in the one that is being settled, in the same
	// order; nothing where no opening hangs on such.
	round [2][]body
	// inTheWay tells that something held is in the way.
	inTheWay bool
}

// earlier is what is worked out of the job before a change, at most once for that change and all that is tried in its place.
type earlier struct {
	laid     func() (run waste.Run, ok bool)
	cutRound func() []body
}

func earlierOf(before *job.Job) earlier {
	return earlier{
		sync.OnceValues(func() (waste.Run, bool) { return laid(before) }),
		sync.OnceValue(func() []body { return cutRound(before) }),
	}
}

// settled makes a change and settles it; problems are why it cannot be.
func settled(before *job.Job, e edit.Edit, held func(string) bool) (*settler, job.Problems) {
	return settledFrom(before, earlierOf(before), e, held)
}

func settledFrom(before *job.Job, old earlier, e edit.Edit, held func(string) bool) (*settler, job.Problems) {
	s := &settler{before: before, earlier: old, edit: e, held: held, applied: e.Apply(*before)}
	s.edited = differing(before, &s.applied)
	var stating bool
	if s.states, stating = e.Subject(); !stating {
		s.states = s.edited
	}
	s.job, s.added = s.applied, s.addition()
	if len(s.edited) == 0 {
		return s, s.job.Validate()
	}
	if outside := s.outside(); len(outside) > 0 {
		return s, outside
	}
	problems := s.applied.Validate()
	heldMoved := slices.DeleteFunc(slices.Clone(s.edited), func(key string) bool {
		return s.stated(key) || !s.held(key) || s.renumbered(key) || keepsFromEnd(before, &s.applied, key) || s.alongAnother(key)
	})
	if len(problems) == 0 && len(heldMoved) == 0 && !s.placesMoved() {
		return s, nil
	}
	s.job = s.applied.Clone()
	for _, key := range heldMoved {
		carry(&s.job, before, key)
	}
	for _, step := range []func(*settler){(*settler).numbers, (*settler).shower, (*settler).walls, (*settler).exit, (*settler).points,
		(*settler).drain, (*settler).screens, (*settler).supports, (*settler).turns, (*settler).alongRun, (*settler).trims} {
		step(s)
	}
	more := differing(&s.applied, &s.job)
	if len(more) > 0 {
		problems = s.job.Validate()
	}
	for _, key := range more {
		if !s.free(key) && !slices.Contains(heldMoved, key) {
			s.inTheWay = true
		}
	}
	s.resettled = len(more) > 0
	if len(problems) == 0 && s.inTheWay {
		problems = job.Problems{{What: message.Of("settle.held-in-the-way")}}
	}
	return s, problems
}

// stated tells whether a path leads to what the edit is about.
func (s *settler) stated(key string) bool {
	return slices.ContainsFunc(s.states, func(outer string) bool { return within(key, outer) })
}

// free tells whether what a path leads to may move.
func (s *settler) free(keys ...string) bool {
	return !slices.ContainsFunc(keys, func(key string) bool {
		return s.stated(key) && !s.isAdded(key) || s.held(key)
	})
}

// addition is the path of the thing that the edit has put at the end of a list that it is about; empty
// for none.
func (s *settler) addition() string {
	for _, key := range s.states {
		if l, ok := job.FindList(key); ok && l.Most > 1 && l.Count(&s.applied) == l.Count(s.before)+1 {
			return job.Nth(key, l.Count(s.before))
		}
	}
	return ""
}

// isAdded tells whether a path leads into what the edit has added.
func (s *settler) isAdded(key string) bool { return s.added != "" && within(key, s.added) }

// renumbered tells whether a path leads to which wall something is at, and walls have other numbers
// than before.
func (s *settler) renumbered(key string) bool {
	return strings.HasSuffix(key, ".wall") && len(s.before.Room.Outline) != len(s.applied.Room.Outline)
}

// keepsFromEnd tells whether a path leads to how far something is along its wall from a corner, the tape's zero is at the
// other, and it is as far from there as before.
func keepsFromEnd(before, after *job.Job, key string) bool {
	wall, along := before.WallAlong(key)
	is, still := after.WallAlong(key)
	if !along || !still || wall != is || !after.Room.ZeroAtEnd(wall) {
		return false
	}
	was, _ := before.NumberAt(key)
	now, _ := after.NumberAt(key)
	longer := after.Room.WallLengthMM(wall) - before.Room.WallLengthMM(wall)
	return math.Abs(now-was-longer) < 2*plan.HairMM
}

// alongAnother tells whether a path leads to how far something is along its wall, and the edit puts it at another: how far it was
// held to be from a corner says nothing there.
func (s *settler) alongAnother(key string) bool {
	was, along := s.before.WallAlong(key)
	is, still := s.applied.WallAlong(key)
	return along && still && was != is && s.stated(strings.TrimSuffix(key, "offsetMM")+"wall")
}

// changed tells whether the edit changes anything within a path.
func (s *settler) changed(outer ...string) bool {
	return slices.ContainsFunc(s.edited, func(key string) bool {
		return slices.ContainsFunc(outer, func(o string) bool { return within(key, o) })
	})
}

// placesMoved tells whether the edit changes the place or size of something that takes room.
func (s *settler) placesMoved() bool {
	return s.openingsTouched() || s.changed("room.outline", "room.doorways", "room.windows", "room.fixtures", "shower", "waste.exit",
		job.TurnsKey, "drain", "former.fall", job.StacksKey, job.PipeEndsKey)
}
