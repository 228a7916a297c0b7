package edit

import (
	"strings"

	"cmp"
	"math"
	"reflect"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// american is the region that measures in inches.
const american = "US"

// unitsOf are the units that people of a region measure in.
func unitsOf(region string) unit.System {
	if region == american || strings.HasPrefix(region, american+"-") {
		return unit.Imperial
	}
	return unit.Metric
}

// CountryParts is what undo says of a change of country with which parts came.
const CountryParts message.ID = "edit.country-parts"

// Region changes the country whose rules apply, and takes what is sold there: the first
// part of its kind in the place of each that is chosen and not sold there, pipe and tiles
// in the size nearest to the one there was. A part stays where the shelf has none that the job
// can be made with. A job of parts as they are sold turns to the country's units as
// well; one with numbers of its user's own keeps the units they were measured in.
func Region(region, edition string, shelf part.Shelf) Edit {
	e := Of(message.Of("edit.country"), func(j *job.Job) {
		if j.Region == region {
			return
		}
		asSold := j.Parts != (job.Parts{}) && !j.Sold().Any()
		assumeFloor(j, region)
		j.Region, j.Edition = region, edition
		s := stocker{job: j, shelf: shelf}
		s.stock()
		if asSold {
			j.Units = unitsOf(region)
		}
	})
	e.made = func(before, after job.Job) message.Message {
		parts := newParts(before, after)
		if len(parts) == 0 {
			return e.What
		}
		return message.Of(CountryParts, message.Arg{Name: "parts", Value: message.List{Items: parts}})
	}
	return e
}

// assumeFloor gives a job what is usual of a floor in another country, where that of its own is assumed so far.
func assumeFloor(j *job.Job, region string) {
	was, is := startOf(j.Region), startOf(region)
	for _, key := range j.Standing(job.Assumed) {
		has, ok := j.NumberAt(key)
		usual, _ := was.NumberAt(key)
		if next, also := is.NumberAt(key); ok && also && strings.HasPrefix(key, "floor.") && has == usual {
			j.SetNumber(key, next)
		}
	}
}

// newParts are the names of parts that a job has and the one before had not, in the
// order in which a floor is put together.
func newParts(before, after job.Job) []message.Message {
	var out []message.Message
	seen := before.Chosen()
	for _, p := range after.Chosen() {
		if !slices.ContainsFunc(seen, func(q part.Part) bool { return q.Kind() == p.Kind() && q.Of().ID == p.Of().ID }) {
			out, seen = append(out, part.Name(p)), append(seen, p)
		}
	}
	return out
}

// What a trap is bedded on, and what a pipe keeps clear of the floor. Common practice, no
// source.
const (
	usualBedUnderMM   = 5
	usualClearUnderMM = 3
)

// UsualParts makes a job one of a region: of every kind the first part that is sold there
// and that the job can be made with, pipe of its usual size, tiles of the size nearest to
// those there are; the base as high as is safe, and the region's units. Of what the shelf has nothing, the job
// keeps its numbers.
func UsualParts(region string, shelf part.Shelf) Edit {
	return Of(message.Of("edit.usual-parts"), func(j *job.Job) {
		j.Region, j.Units = region, unitsOf(region)
		j.Base.Height, j.Drain.BedUnderMM, j.Waste.ClearUnderMM = job.HeightSafe, usualBedUnderMM, usualClearUnderMM
		s := stocker{job: j, shelf: shelf, all: true}
		s.stock()
	})
}

// Start is the starting job of a region with its usual parts, in sizes that are round in
// the units people measure in there, and built as it is there.
func Start(region string, shelf part.Shelf) job.Job {
	j := startOf(region)
	// As long as its side, and no floor beside it level where it is not sold so long.
	j.Drain.LengthMM, j.Former.Ends = 0, job.EndsFalling
	return UsualParts(region, shelf).Apply(j)
}

// startOf is the starting job of a region before it has parts.
func startOf(region string) job.Job {
	j := job.New()
	if unitsOf(region) == unit.Imperial {
		j = job.NewInInches()
		framed(&j)
	}
	return j
}

// framed makes a job one of wood frame: stud walls, outside of 6 in nominal, over joists, through
// which the waste goes down beside the trap; its pipe steeper than the least of codes, 1/4 in a
// foot, by what may go wrong in laying it. Common practice, no source.
func framed(j *job.Job) {
	const inch = 25.4
	inside := j.Room.Walls[0]
	for i := range j.Room.Walls {
		w := &j.Room.Walls[i]
		if w.Kind == job.WallStud {
			continue
		}
		ground := w.OutsideGroundMM
		*w = inside
		if w.OutsideGroundMM = ground; ground != nil {
			w.ThicknessMM = 6.5 * inch
		}
	}
	// The first joist a spacing from the wall: the way down then comes between two.
	j.Floor.Kind, j.Floor.Joists.FirstOffsetMM = job.FloorTimber, j.Floor.Joists.SpacingMM
	j.Waste.Gradient = 5.0 / 16 / 12
	exitKind(job.ExitFloor).apply(j)
}

// FallWithDrain changes how the floor falls. A drain that was chosen and does not go with
// the fall gives way to the first sold in the job's region that does.
func FallWithDrain(k job.FallKind, shelf part.Shelf) Edit {
	e := Fall(k)
	return Of(e.What, func(j *job.Job) {
		chosen := j.Parts.Drain != nil
		e.apply(j)
		if chosen && j.Parts.Drain == nil {
			s := stocker{job: j, shelf: shelf, all: true}
			s.drain()
		}
	}).About("former.fall")
}

// stocker chooses parts for a job among those sold in its region.
type stocker struct {
	job   *job.Job
	shelf part.Shelf
	// all tells that there is to be a part of every kind; else only those chosen that
	// are not sold in the region give way.
	all bool
}

// stock chooses parts of all kinds, once more where one that the job could not be made
// with before may do with those chosen after it.
func (s *stocker) stock() {
	const most = 4 // one part may make way for the next
	for range most {
		before := s.job.Clone()
		if s.round(); reflect.DeepEqual(before, *s.job) {
			return
		}
	}
}

// round chooses parts of all kinds once. The pipe comes before the drain, whose outlet goes
// with it.
func (s *stocker) round() {
	p := &s.job.Parts
	take(s, s.job.Floor.Joists.Timber, s.shelf.Timber, func(j *job.Job, t part.Timber) { j.Floor.Joists.Timber = &t })
	take(s, p.Boards, s.shelf.Boards, (*job.Job).UseBoards)
	take(s, p.Former, s.shelf.Formers, (*job.Job).UseFormer)
	take(s, p.Pipe, s.shelf.Pipes, func(j *job.Job, x part.PipeSystem) {
		UsePipe(x, x.UsualMM).apply(j)
	})
	s.drain()
	for _, w := range job.Wheres() {
		for _, use := range part.LayerUses() {
			take(s, *p.Of(w).Layer(use), s.shelf.LayersFor(use), func(j *job.Job, l part.Layer) { j.UseLayer(w, l) })
		}
		tiles := slices.Clone(s.shelf.Tiles)
		slices.SortStableFunc(tiles, nearerTo(s.job.Finish(w)))
		take(s, p.Of(w).Tile, tiles, func(j *job.Job, t part.Tile) { j.UseTile(w, t) })
	}
}

// drain chooses a drain that goes with the fall; rather one that has an outlet for the
// job's pipe.
func (s *stocker) drain() {
	of := s.shelf.DrainsTo(s.job.Former.Fall.Linear())
	// A drain without one comes after those that have it.
	missing := func(d part.Drain) int {
		if _, ok := d.Outlet(s.job.Waste.NominalMM); ok {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(of, func(a, b part.Drain) int { return missing(a) - missing(b) })
	take(s, s.job.Parts.Drain, of, func(j *job.Job, d part.Drain) { UseDrain(d).apply(j) })
}

// nearerTo orders tiles by how far their faces are from a finish's.
func nearerTo(f job.Finish) func(a, b part.Tile) int {
	off := func(t part.Tile) float64 {
		return math.Abs(t.LengthMM-f.TileLengthMM) + math.Abs(t.WidthMM-f.TileWidthMM)
	}
	return func(a, b part.Tile) int { return cmp.Compare(off(a), off(b)) }
}

// take chooses the first part of a list that is sold in the job's region and that the job
// can be made with; none where the one chosen may stay.
func take[P part.Part](s *stocker, chosen *P, of []P, use func(*job.Job, P)) {
	if !s.all && (chosen == nil || (*chosen).Of().SoldIn(s.job.Region)) {
		return
	}
	for _, p := range part.SoldIn(of, s.job.Region) {
		j := s.job.Clone()
		use(&j, p)
		if len(j.Validate()) == 0 {
			*s.job = j
			return
		}
	}
}

// Edition holds a job against another edition of its region's rules from now on.
func Edition(edition string) Edit {
	return Of(message.Of("edit.edition", message.Name("edition", edition)), func(j *job.Job) { j.Edition = edition })
}
