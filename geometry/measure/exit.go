package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/level"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

func (m *Measurer) exit() {
	r, e := &m.Heights.Run, m.Settled.Waste.Exit
	if len(r.Pieces) == 0 {
		return
	}
	pipe := r.Outgoing()
	at := m.onRun(r.ExitAtMM)
	if stated, ok := e.Level.InvertMM(); ok {
		m.add("exit.too-low", of(rule.Exit), max(0, stated-r.InvertAt(r.ExitAtMM)), at)
		m.add("exit.above-outlet", of(rule.Exit), max(0, stated-m.Heights.OutletMM), at)
		// An existing pipe's end is where it is, however little is asked of it.
		if _, exact := e.Level.ExactlyMM(); exact || e.Kind == job.ExitPipe {
			m.add("exit.too-high", of(ending(e.Kind)), max(0, r.InvertAt(r.ExitAtMM)-stated), at)
		} else {
			m.add("exit.over-stated", of(rule.Exit), max(0, r.InvertAt(r.ExitAtMM)-stated), at)
		}
	}
	if e.Kind == job.ExitPipe && e.NominalMM > 0 {
		m.add("exit.narrower", of(rule.ExistingPipeEnd), max(0, pipe.NominalMM-e.NominalMM), at)
	}
	switch e.Kind {
	case job.ExitStack:
		m.intoStack(pipe, at)
	case job.ExitPump:
		m.intoPump(at)
	case job.ExitFloor, job.ExitPipe:
		if e.Kind == job.ExitFloor {
			m.add("exit.through-floor", of(rule.DropThroughFloor), pipe.NominalMM, at)
		}
		m.exitInJoist(at)
	}
	if r.Wall > 0 {
		m.throughWall(pipe, at)
	}
}

// beyond measures the run's end outside the wall that it leaves through.
func (m *Measurer) beyond(pipe part.Pipe) {
	r, way := &m.Heights.Run, m.Settled.Waste.WayOut()
	if m.Settled.Waste.Exit.Kind != job.ExitWall {
		return
	}
	at := m.onRun(r.LengthMM)
	if way == nil {
		m.add("beyond.unknown", of(rule.Exit), 1, at)
		return
	}
	if outside := level.GroundOutsideMM(&m.Settled, r); outside == nil && way.Joins != job.JoinStack {
		m.add("beyond.no-outside", rule.Subject{Of: rule.ExitInWall, Number: int(m.Layout.Walls[r.Wall-1].Letter)}, 1, at)
	}
	// How far it is to what is known to be joined is assumed like any other length.
	if m.Settled.StandingOf(job.JoinsKey).Open() {
		m.add("beyond.assumed", of(rule.Exit), float64(len(m.Settled.OpenUnder(job.BeyondKey))), at)
	}
	if way.Joins != job.JoinGully {
		return
	}
	m.add("gully.joined", of(rule.Gully), 1, at)
	if over, known := level.OverGroundMM(&m.Settled, r); known {
		m.add("gully.under-ground", of(rule.Gully), max(0, -over), at)
	}
	if way.DownToMM == nil && way.GratingMM == nil && !m.Settled.StandingOf(job.JoinsKey).Open() {
		m.add("gully.way-down-open", of(rule.Gully), 1, at)
	}
	// The pipe's end: of one that a bend turns down all of its mouth lies at a level.
	low := r.InvertAt(r.LengthMM)
	high := low + pipe.BoreMM + pipe.WallMM()
	if way.DownToMM != nil {
		low, high = *way.DownToMM, *way.DownToMM
	}
	if way.GratingMM != nil {
		m.add("gully.under-grating", of(rule.Gully), *way.GratingMM-high, at)
	}
	if way.WaterMM != nil {
		m.add("gully.over-water", of(rule.Gully), low-*way.WaterMM, at)
	}
}

// throughWall measures where the run goes out through a wall.
func (m *Measurer) throughWall(pipe part.Pipe, at mgl64.Vec3) {
	r := &m.Heights.Run
	w, wall := m.Layout.Walls[r.Wall-1], m.Settled.Room.Walls[r.Wall-1]
	m.beyond(pipe)
	if over, _ := level.OverGroundMM(&m.Settled, r); level.OutsideGroundMM(&m.Settled, r) != nil {
		m.add("exit.above-ground", of(rule.Exit), over, m.onRun(r.LengthMM))
	}
	hole := assembly.CoreHole(r, w, m.Settled.Waste.HoleRoomMM)
	m.add("exit.off-corner", of(rule.Exit), min(hole.MiddleMM(), w.LengthMM-hole.MiddleMM())-hole.LengthMM()/2, at)
	m.core(at)
	if wall.Kind == job.WallStud {
		m.solePlate(&wall, at)
		m.add("exit.in-stud", rule.Subject{Of: rule.ExitInWall, Number: int(w.Letter)}, m.studOverlap(w, wall), at)
	}
}

// outside measures that a run that goes out through a wall comes out under the ground there, over it, or where no ground is.
func (m *Measurer) outside() {
	r := &m.Heights.Run
	if len(r.Pieces) == 0 || r.Wall == 0 || m.Settled.Waste.Exit.Kind != job.ExitWall {
		return
	}
	quantity := "caution.next-room"
	if over, known := level.OverGroundMM(&m.Settled, r); known {
		quantity = "caution.pipe-outside"
		if over < 0 {
			quantity = "caution.dig"
		}
	}
	m.add(quantity, of(rule.Exit), 1, m.onRun(r.LengthMM))
}

// ending is what the run ends in.
func ending(k job.ExitKind) rule.Thing {
	if k == job.ExitPipe {
		return rule.ExistingPipeEnd
	}
	return rule.Exit
}

// exitInJoist measures how much closer to a joist than it may a drop through the
// floor comes, or the end of an existing pipe below the deck.
func (m *Measurer) exitInJoist(at mgl64.Vec3) {
	r, overlap := &m.Heights.Run, 0.0
	if m.Settled.Waste.Exit.Kind == job.ExitFloor {
		m.add("exit.in-joist", of(rule.DropThroughFloor), m.dropInJoist(), at)
		return
	}
	half := r.Outgoing().OutsideDiameterMM / 2
	for i := range m.Layout.Joists {
		js := &m.Layout.Joists[i]
		top := joist.TopMM(&m.Settled, &m.Heights, js, r.Exit)
		if level := r.InvertAt(r.ExitAtMM); level-r.Outgoing().WallMM() >= top || level+2*half-r.Outgoing().WallMM() <= top-m.Settled.Floor.Joists.DepthMM {
			continue // it ends over or under the joists
		}
		off := math.Abs(r.Exit.Sub(js.Origin).Dot(plan.Left(js.Along))) - js.WidthMM/2
		if past := pastHung(js, r.Exit); past > 0 {
			off = math.Hypot(past, max(0, off))
		}
		overlap = max(overlap, half+clash.ClearanceMM-off)
	}
	m.add("exit.in-joist", of(rule.ExistingPipeEnd), overlap, at)
}
