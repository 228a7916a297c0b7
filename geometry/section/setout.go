package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// SetOut is a distance that something is set out by, drawn straight between two points.
type SetOut struct {
	Text message.Message
	// Of is the place that is set out, Spans where the distance may be drawn, from a wall to
	// beside that place, the best first.
	Of    plan.Point
	Spans [][2]plan.Point
	// Key is the parameter that it shows, if it shows just one; Sets what else it shows that
	// can be typed on.
	Key  string
	Sets edit.FromWall
	// HangsOn are paths of the job's file of what it is worked out from, where it cannot be typed; else none.
	HangsOn []string
}

// setter sets out, nothing twice: by the number of a wall and the distance from it.
type setter struct {
	*Drawing
	l    *layout.Layout
	done map[wallOff]bool
}

// wallOff is a distance from a wall, in whole millimetres.
type wallOff struct{ wall, offMM int }

// setOuts dimension what is set out in the room: the drain's middle from two walls, where the run
// goes through a wall, what stands by itself from two walls, and how far the run lies from the
// walls that it runs along.
func (d *Drawing) setOuts(r geometry.Result) {
	l, run, exit := &r.Layout, &r.Heights.Run, r.Settled.Waste.Exit.Kind
	s := setter{d, l, map[wallOff]bool{}}
	drain := edit.Handle{Kind: edit.HandleDrain}
	if r.Settled.Former.Fall.Linear() {
		drain = edit.Handle{} // where it is comes from its side
	}
	s.fromTwoWalls(l.DrainCentre, drain)
	s.exit(r)
	for i := range l.Stacks {
		s.fromTwoWalls(l.Stacks[i].At, edit.Handle{Kind: edit.HandleStack, Index: i})
	}
	if len(run.Pieces) > 0 && exit != job.ExitWall && exit != job.ExitStack {
		of := edit.Handle{Kind: edit.HandleExit}
		if i, led := r.Settled.Room.PipeEndAt(r.Settled.Waste.Exit); led {
			of = edit.Handle{Kind: edit.HandlePipeEnd, Index: i}
		}
		s.fromTwoWalls(run.Exit, of)
	}
	for i, p := range r.Settled.Room.PipeEnds {
		if led, ok := r.Settled.Room.PipeEndAt(r.Settled.Waste.Exit); !ok || led != i {
			s.fromTwoWalls(p.At, edit.Handle{Kind: edit.HandlePipeEnd, Index: i})
		}
	}
	for i := 1; i < len(run.Corners); i++ {
		s.leg(run.Corners[i-1], run.Corners[i], legHangsOn(&r, i))
	}
}

// legHangsOn is what the place of a straight of the run hangs on, by the corner that it leads to: the drain that it
// comes from or the way out that it leads to, and the turns that are stated at its ends; both of those where none is.
func legHangsOn(r *geometry.Result, leg int) (out []string) {
	last, turns := len(r.Heights.Run.Corners)-1, len(r.Settled.Waste.Waypoints)
	if leg == 1 || turns == 0 {
		out = append(out, "drain")
	}
	for _, turn := range [...]int{leg - 2, leg - 1} {
		if turn >= 0 && turn < turns {
			out = append(out, job.Nth(job.TurnsKey, turn))
		}
	}
	if leg == last || turns == 0 {
		out = append(out, exitPath(&r.Settled))
	}
	return out
}

// exitPath is the path of what the way out is stated by: a stack, the end of a pipe, or itself.
func exitPath(j *job.Job) string {
	if i, led := j.Room.PipeEndAt(j.Waste.Exit); led {
		return job.Nth(job.PipeEndsKey, i)
	}
	if e := &j.Waste.Exit; e.Kind == job.ExitStack && e.Stack < len(j.Room.Stacks) {
		return job.Nth(job.StacksKey, e.Stack)
	}
	return "waste.exit"
}

// shows is what a distance shows that can be typed on, or what it hangs on.
type shows struct {
	key     string
	sets    edit.FromWall
	hangsOn []string
}

// add sets a place out.
func (s *setter) add(of plan.Point, lengthMM float64, shows shows, spans ...[2]plan.Point) {
	s.SetOuts = append(s.SetOuts, SetOut{message.Of("dimension.length", message.Along("length", lengthMM)), of, spans, shows.key, shows.sets, shows.hangsOn})
}

// first tells whether nothing is set out yet at a distance from a wall.
func (s *setter) first(w *layout.Wall, offMM float64) bool {
	k := wallOff{w.Index, int(math.Round(offMM))}
	if s.done[k] {
		return false
	}
	s.done[k] = true
	return true
}

// exit sets out, in or along the wall that the run goes out through, the middle of the hole from
// its start corner.
func (s *setter) exit(r geometry.Result) {
	run := &r.Heights.Run
	if run.Wall == 0 || len(run.Pieces) == 0 {
		return
	}
	w, at := &s.l.Walls[run.Wall-1], run.PointAt(run.WallAtMM)
	along, shown := at.Sub(w.A).Dot(w.Along), shows{hangsOn: legHangsOn(&r, len(run.Corners)-1)}
	if e := &r.Settled.Waste.Exit; e.Kind == job.ExitWall && math.Abs(e.OffsetMM-along) < plan.HairMM {
		shown = shows{key: "waste.exit.offsetMM"}
	}
	var spans [][2]plan.Point
	for _, off := range [...]float64{0.75 * w.ThicknessMM, 0.25 * w.ThicknessMM, -90, -200} {
		out := w.Outward.Mul(off)
		spans = append(spans, [2]plan.Point{w.A.Add(out), w.At(along).Add(out)})
	}
	s.add(at, along, shown, spans...)
}

// leg sets out a straight of the run, as far as it lies in the room, from the nearest wall that
// it runs along; hangsOn is what its place hangs on.
func (s *setter) leg(a, b plan.Point, hangsOn []string) {
	const leastMM, withCos = 250, 0.9999
	long, to := b.Sub(a).Len(), b.Sub(a).Normalize()
	var in plan.Interval
	for _, iv := range s.l.Room.Clip(a, to) {
		if iv.To > 0 && iv.From < long {
			in = plan.Interval{From: math.Max(0, iv.From), To: math.Min(long, iv.To)}
			break
		}
	}
	if in.To-in.From < leastMM {
		return
	}
	away := math.Inf(1)
	var wall *layout.Wall
	var spans [][2]plan.Point
	for k := range s.l.Walls {
		w := &s.l.Walls[k]
		off := w.A.Sub(a).Dot(w.Outward)
		if math.Abs(w.Along.Dot(to)) < withCos || off <= 0 || off >= away {
			continue
		}
		var here [][2]plan.Point
		for _, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			p := a.Add(to.Mul(in.From + share*(in.To-in.From)))
			if at := p.Sub(w.A).Dot(w.Along); at > 0 && at < w.LengthMM {
				here = append(here, [2]plan.Point{w.At(at), p})
			}
		}
		if len(here) > 0 {
			away, wall, spans = off, w, here
		}
	}
	if wall != nil && s.first(wall, away) {
		s.add(spans[0][1], away, shows{hangsOn: hangsOn}, spans...)
	}
}

// fromTwoWalls sets out the place of something in the room from the nearest wall and from the
// nearest one that stands across to that; without its handle, of a drain along a side of the shower, nothing that
// can be typed on.
func (s *setter) fromTwoWalls(p plan.Point, of edit.Handle) {
	const leastMM = 1
	if !s.l.Room.Contains(p, 0) {
		return
	}
	for _, x := range s.l.OffTwoWalls(p, leastMM) {
		shown := shows{hangsOn: []string{"shower", "drain"}} // of a drain along a side
		typed := of != (edit.Handle{})                       // each by itself, though others are as far from the wall
		if typed {
			shown = shows{sets: edit.FromWall{Of: of, Wall: x.Wall.Index}}
		}
		if s.first(x.Wall, x.OffMM) || typed {
			var spans [][2]plan.Point
			for _, aside := range [...]float64{0, 90, -90, 180, -180, 300, -300, 450, -450} {
				by := x.Wall.Along.Mul(aside)
				spans = append(spans, [2]plan.Point{x.Wall.At(x.AlongMM).Add(by), p.Add(by)})
			}
			s.add(p, x.OffMM, shown, spans...)
		}
	}
}
