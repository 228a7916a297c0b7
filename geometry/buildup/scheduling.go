package buildup

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// scheduling is a schedule being drawn up.
type scheduling struct {
	f    *Floor // whose levels it lists
	rows []Row
}

// put gives a row the level of its mark, which is its value where that is one.
func (s *scheduling) put(r Row, p plan.Point, markMM float64) {
	r.Value = s.f.value(r.ID, p)
	if r.Kind() == IsLevel {
		markMM = r.Value
	}
	switch l := &s.f.layout; r.ID.Of {
	case EdgeStep:
		_, r.Rise = s.f.heights.EdgeLevels(&s.f.job, l, l.OpenEdges()[r.ID.Number]).StepNear(l.TrapCentre, s.f.job.Units)
	case DoorStep:
		door := &l.Doors[r.ID.Number]
		r.Rise, r.Assumed, r.OverStop = s.f.DoorStep(*door), s.f.job.BeyondOpen(door.Index), s.f.job.DoorStopMM() > 0
	}
	r.At = p.Vec3(markMM)
	if r.ID.Of.stacked() {
		r.Stack = s.f.At(p)
	}
	s.rows = append(s.rows, r)
}

// add adds the row of one of several things, or of the only one, with the level of its mark.
func (s *scheduling) add(of RowOf, n int, p plan.Point, markMM float64) {
	s.put(Row{ID: RowID{of, n}}, p, markMM)
}

// level adds a row that is a level.
func (s *scheduling) level(of RowOf, p plan.Point) { s.add(of, 0, p, 0) }

// Schedule lists the levels a fitter and a tiler need, from the floor up and
// from the drain outwards.
func (f *Floor) Schedule() []Row {
	j, l, h := &f.job, &f.layout, &f.heights
	s := scheduling{f, make([]Row, 0, 40)}
	middle := l.FallArea.Centroid()
	s.level(FloorHigh, h.FloorHighAt)
	if j.Base.Support == job.OnFloor {
		s.level(BaseUnder, middle)
	} else {
		s.level(LedgerTop, middle)
	}
	s.level(BaseTop, middle)
	s.level(TrapUnder, l.TrapCentre)
	s.level(OutletInvert, l.Outlet)
	s.run()
	s.level(Flange, l.DrainEdge)
	s.level(TileAtDrain, l.DrainEdge)
	s.level(CoverSet, l.DrainCentre)
	if j.Former.Fall.Linear() && j.Drain.LengthMM == 0 {
		s.add(DrainLong, 0, l.DrainCentre, h.TileMM)
	}
	for i, p := range l.Planes {
		c := p.Region.Centroid()
		s.add(PlaneFall, i, c, h.ShowerAt(l, c))
	}
	for i, e := range h.Edges(j, l) {
		s.edge(i, e)
	}
	if j.Former.Fall != job.FallRoom {
		if p, ok := f.roomPoint(); ok {
			s.level(RoomFloor, p)
		}
	}
	for _, d := range l.Doors {
		p := f.DoorWorst(d)
		s.add(DoorFloor, d.Index, p, 0)
		s.add(DoorStep, d.Index, p, f.FinishedMM(p))
	}
	for i := range l.Screens {
		low := h.GlassOf(j, l, &l.Screens[i]).Lowest()
		s.add(ScreenDrop, i, low.At, low.LevelMM)
		s.add(ScreenTall, i, low.At, low.LevelMM)
	}
	return s.rows
}

// run lists the levels and falls of the run, and what it leaves over and around it.
func (s *scheduling) run() {
	j, l, h, run := &s.f.job, &s.f.layout, &s.f.heights, &s.f.heights.Run
	for i := range run.Pieces {
		p := &run.Pieces[i]
		if p.FromMM >= run.ExitAtMM || p.Kind == waste.Drop {
			break
		}
		if p.Kind == waste.Joint {
			continue // it falls as the pipe after it
		}
		of := PieceInvert
		if run.Wall > 0 && p.ToMM > run.ExitAtMM+noLengthMM {
			of = PieceInvertAtWall
		}
		s.put(Row{ID: RowID{of, i}, Piece: p.Name()}, run.PointAt(math.Min(p.ToMM, run.ExitAtMM)), 0)
	}
	for i := range run.Pieces {
		if p := &run.Pieces[i]; p.Kind != waste.Joint && p.FromMM < run.ExitAtMM && p.LengthMM() >= noLengthMM {
			s.put(Row{ID: RowID{PieceFall, i}, Piece: p.Name()}, p.Middle(), (p.FromInvertMM+p.ToInvertMM)/2)
		}
	}
	for _, of := range []RowOf{PipeCover, FormerOverPipe} {
		if value, at := s.f.overPipe(of); !math.IsInf(value, 1) {
			s.add(of, 0, plan.Point{at.X(), at.Y()}, at.Z())
		}
	}
	s.level(ExitInvert, run.Exit)
	s.level(ExitCrown, run.Exit)
	if j.Waste.WayOut() != nil {
		s.level(OutsideInvert, run.PointAt(run.LevelEndMM(&j.Waste)))
	}
	if core, ok := h.Core(j, l); ok {
		s.level(CoreMiddle, core.At)
		s.add(CoreLeast, 0, core.At, core.CentreMM)
	}
}

// edge lists the levels of an open edge of the shower, by its index, and of the ramp at it.
func (s *scheduling) edge(i int, e level.EdgeLevels) {
	j, l, h := &s.f.job, &s.f.layout, &s.f.heights
	put := func(of RowOf, p plan.Point, markMM float64) {
		s.put(Row{ID: RowID{of, i}, Side: e.Edge.Side}, p, markMM)
	}
	if e.Tapered() {
		low, high := e.Ends()
		put(EdgeLow, low.At, 0)
		put(EdgeHigh, high.At, 0)
	} else {
		put(EdgeTile, e.Edge.Middle(), 0)
	}
	if l.WalkedOver(i) {
		put(EdgeStep, e.Edge.Middle(), h.ShowerAt(l, e.Edge.Middle()))
	}
	ramp, ok := h.RampAt(j, l, i)
	if !ok {
		return
	}
	top := h.ShowerAt(l, ramp.From)
	put(RampRise, ramp.From, top)
	middle := ramp.From.Add(ramp.Foot).Mul(0.5)
	put(RampRun, middle, top-ramp.RiseMM/2)
	put(RampFall, middle, top-ramp.RiseMM/2)
	if l.Room.Contains(ramp.Foot, job.AtWallMM) {
		put(RampFoot, ramp.Foot, 0)
	}
}
