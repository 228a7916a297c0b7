package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Sealing is what is sealed, and with how much of what: as it stands in plan and on the
// walls, without laps and waste.
type Sealing struct {
	// TankedFloorMM2 and TankedWallMM2 are the tanking's; OpeningsMM2 is what windows and
	// doorways leave out of the walls', RevealsMM2 what their reveals take besides.
	TankedFloorMM2, TankedWallMM2, OpeningsMM2, RevealsMM2 float64
	// Windows are those within the tanking of the walls.
	Windows []TankedWindow
	// Tape where walls meet the floor, in the corners of the shower's walls, along its open
	// edges where the base meets the room, and round openings in tanked walls.
	TapeFloorMM, TapeCornersMM, TapeEdgesMM, TapeOpeningsMM float64
	// FacesMM2 is what the shower's tanking takes to go down the faces of its open edges, TapeFacesMM the
	// tape along their feet.
	FacesMM2, TapeFacesMM float64
	// Collars are of what Underfall knows to go through the tanking: the drain and the
	// stacks that stand in what is tanked. The shower's own pipes are not known.
	Collars int
	// JointMM is the gap along walls; Sealant the length of the joints along walls and
	// doorways and round stacks, in the corners of tiled walls, along the open edges, and across fields.
	JointMM                                                           float64
	SealantFloorMM, SealantCornersMM, SealantEdgesMM, SealantFieldsMM float64
	// Joints are those across the floor, Fields the tile between them; FieldMM is the longest
	// side of a field.
	Joints  []layout.FieldJoint
	Fields  []layout.Field
	FieldMM float64
	// UpturnMM is how high the floor's tanking turns up the walls beside the shower,
	// UpturnMM2 what that takes.
	UpturnMM, UpturnMM2 float64
	// BoxingMM2 is what the floor's tanking takes to go up and over boxes round the run that
	// stand in it, TapeBoxingMM the tape along their feet and where they meet walls.
	BoxingMM2, TapeBoxingMM float64
	// StopDoorsMM and StopScreensMM are the water stops at doorways and along fixed panes.
	StopDoorsMM, StopScreensMM float64
	// SleeveMM is the sleeve for the waste through both leaves of a cavity wall, SleeveWall that
	// wall's number.
	SleeveMM   float64
	SleeveWall message.Letter
	// EdgeStripMM is the strip round floating and heated screeds.
	EdgeStripMM float64
	// HeatedMM2 is where a heating mat lies.
	HeatedMM2 float64
}

// TapeMM is all tape.
func (s Sealing) TapeMM() float64 {
	return s.TapeFloorMM + s.TapeCornersMM + s.TapeEdgesMM + s.TapeFacesMM + s.TapeOpeningsMM + s.TapeBoxingMM
}

// SealantMM is all sealant.
func (s Sealing) SealantMM() float64 {
	return s.SealantFloorMM + s.SealantCornersMM + s.SealantEdgesMM + s.SealantFieldsMM
}

// SealingOf works out what is sealed of a levelled job.
func SealingOf(r stage.Levelled) Sealing {
	j, l, h := &r.Settled, &r.Layout, &r.Heights
	s := Sealing{Collars: 1, JointMM: j.Layers.JointMM(), HeatedMM2: l.Heated.Area(), EdgeStripMM: edgeStripMM(j, l)}
	tanked, tiled := h.TileMM+j.Layers.TankedToMM(), h.TileMM+j.Layers.WallTiledToMM
	if j.Layers.Wall.Tanking.ThicknessMM == 0 {
		tanked = math.Inf(-1)
	}
	beyond, all := j.TankedBeyondMM()
	roomTanked := all || beyond > 0
	if s.TankedFloorMM2 = l.FallArea.Area(); roomTanked {
		s.TankedFloorMM2 += l.Rest.Area() - l.Untanked.Area()
	}
	for _, x := range l.Stacks {
		if l.FallArea.Contains(x.At, 0) || roomTanked && l.Room.Contains(x.At, 0) && !l.Untanked.Contains(x.At, 0) {
			s.Collars++
		}
	}
	s.UpturnMM, _ = j.UpturnMM()
	boxes := h.Boxes(j, l)
	s.boxing(&r, boxes, roomTanked)
	ends := map[plan.Point]int{} // of finished walls, by the corner
	for i := range l.Walls {
		w := &l.Walls[i]
		shower := l.Finished(j, w)
		for _, iv := range shower {
			s.tank(j, i, faceOf(&r, w, iv, tanked))
			for k, p := range [2]plan.Point{w.A, w.B} {
				if end := [2]float64{iv.From, w.LengthMM - iv.To}[k]; math.Abs(end) < sameMM {
					if ends[p]++; ends[p] == 2 {
						ceiling, floor := l.CeilingAt(p), h.ShowerAt(l, p)
						s.TapeCornersMM += math.Max(0, math.Min(tanked, ceiling)-floor)
						s.SealantCornersMM += math.Max(0, math.Min(tiled, ceiling)-floor)
					}
				}
			}
		}
		whole := []plan.Interval{{From: 0, To: w.LengthMM}}
		room := plan.Without(whole, shower)
		if doors := doorsOf(j, w.Index); roomTanked {
			dry := l.Untanked.Clip(w.A.Sub(w.Outward.Mul(insideMM)), w.Along)
			beside := lengthOf(plan.Without(plan.Without(room, doors), dry))
			s.TapeFloorMM += lengthOf(plan.Without(shower, doors)) + beside
			s.UpturnMM2 += beside * s.UpturnMM
		} else {
			s.TapeFloorMM += lengthOf(plan.Without(shower, doors))
		}
		if s.SealantFloorMM += lengthOf(shower); j.RoomFinished() {
			s.SealantFloorMM += lengthOf(plan.Without(room, atBoxes(w, boxes)))
		}
	}
	if j.Former.Fall != job.FallRoom {
		for _, e := range l.OpenEdges() {
			s.TapeEdgesMM += e.LengthMM()
		}
		s.FacesMM2, s.TapeFacesMM = h.FacesMM2(j, l)
	}
	for _, floor := range tiledFloors(j, l) {
		for _, x := range l.StandingOn(floor) {
			s.SealantFloorMM += 2 * math.Pi * x.RadiusMM
		}
	}
	s.joints(j, l)
	s.stops(j, l)
	if h.ThroughLeaves(j, l) {
		s.SleeveMM, s.SleeveWall = j.Room.Walls[h.Run.Wall-1].ThicknessMM, j.Room.Letter(h.Run.Wall-1)
	}
	return s
}

// stops are the water stops.
func (s *Sealing) stops(j *job.Job, l *layout.Layout) {
	if j.DoorStopMM() > 0 {
		for _, d := range j.Room.Doorways {
			s.StopDoorsMM += d.WidthMM
		}
	}
	for i := range l.Screens {
		if x := &l.Screens[i]; j.ScreenStopMM() > 0 && j.Shower.Screens[x.Index].Kind == job.ScreenPane {
			s.StopScreensMM += x.OnMM()
		}
	}
}

// tiledFloors are the parts of the floor that are tiled: the shower's and, where it is, the
// room's.
func tiledFloors(j *job.Job, l *layout.Layout) []plan.Region {
	if j.RoomFinished() {
		return []plan.Region{l.FallArea, l.Rest}
	}
	return []plan.Region{l.FallArea}
}

// joints are those across the floor; without any stated there is no sealant at all.
func (s *Sealing) joints(j *job.Job, l *layout.Layout) {
	fields := l.FieldsOf(j)
	s.Joints, s.Fields = fields.Joints, fields.Fields
	for _, x := range s.Joints {
		s.SealantFieldsMM += x.LengthMM()
	}
	for _, f := range s.Fields {
		s.FieldMM = math.Max(s.FieldMM, math.Max(f.WidthMM, f.DepthMM))
	}
	switch x := j.Layers.Joints; {
	case x == nil || x.PerimeterMM == 0:
		s.SealantFloorMM, s.SealantCornersMM, s.SealantEdgesMM, s.SealantFieldsMM = 0, 0, 0, 0
	case x.AtEdge:
		s.SealantEdgesMM = s.TapeEdgesMM
	}
}

// doorsOf are the doorways of a wall.
func doorsOf(j *job.Job, wall int) (out []plan.Interval) {
	for _, d := range j.Room.Doorways {
		if d.Wall == wall {
			out = append(out, plan.Interval{From: d.OffsetMM, To: d.OffsetMM + d.WidthMM})
		}
	}
	return out
}

func lengthOf(ivs []plan.Interval) (mm float64) {
	for _, iv := range ivs {
		mm += iv.To - iv.From
	}
	return mm
}

// sealing measures how far the tanking reaches, and the joints.
func (m *Measurer) sealing(s Sealing) {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	if x := j.Layers.Joints; x != nil {
		at := m.Layout.Shower.Centroid()
		place := at.Vec3(h.ShowerAt(l, at))
		m.add("joint.perimeter", of(rule.FloorJoints), x.PerimeterMM, place)
		m.add("joint.field", of(rule.FloorJoints), s.FieldMM, place)
	}
	if len(l.Heated) > 0 {
		at := l.Heated.Centroid()
		m.add("caution.heating", of(rule.HeatingMat), l.Heated.Area(), at.Vec3(h.RoomAt(j, at)))
	}
	if to, at, ok := m.tankedWalls(); ok {
		m.add("tanking.wall-to", of(rule.WallTanking), to, at.Vec3(h.ShowerAt(l, at)))
	}
	if beyond, all := j.TankedBeyondMM(); !all && len(l.OpenEdges()) > 0 && len(l.Untanked) > 0 {
		at := l.OpenEdges()[0].Middle()
		var tags []string
		if j.Shower.Head != nil {
			tags = append(tags, tagHead)
		}
		m.add("tanking.beyond", of(rule.FloorTanking), beyond, at.Vec3(h.ShowerAt(l, at)), tags...)
	}
	m.screenStops()
	m.tankedFromHead()
	if up, tanked := j.UpturnMM(); tanked && len(l.Rest) > 0 {
		at := l.Rest.Centroid()
		m.add("tanking.upturn", of(rule.FloorTanking), up, at.Vec3(h.RoomAt(j, at)))
	}
	for _, w := range s.Windows {
		of := &j.Room.Windows[w.Index]
		at := l.Walls[of.Wall].At(w.AlongMM)
		m.add("tanking.window", rule.Subject{Of: rule.Window, Number: w.Index + 1}, w.TallMM, at.Vec3(of.SillMM))
	}
}

// downMM is how far a shower's floor lies under the one beside it where that needs no water
// stop. NCC Housing Provisions 2025, 10.2.16, as quoted elsewhere.
const downMM = 25

// screenStops measures the water stop along each fixed pane at an open edge without a kerb, where
// the room's floor does not lie well over the shower's.
func (m *Measurer) screenStops() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	if j.Shower.Kerb != nil || j.Former.Fall == job.FallRoom {
		return
	}
	for i := range l.Screens {
		x := &l.Screens[i]
		middle := x.A.Add(x.B).Mul(0.5)
		on := h.ShowerAt(l, middle)
		if j.Shower.Screens[x.Index].Kind == job.ScreenPane && h.RoomAt(j, middle)-on < downMM {
			m.add("tanking.screen-stop", rule.Subject{Of: rule.Screen, Number: x.Index + 1}, j.ScreenStopMM(), middle.Vec3(on))
		}
	}
}

// tankedFromHead measures how far from the rose the floor's tanking ends, and how far over it
// the walls' does, unless that goes to the ceiling.
func (m *Measurer) tankedFromHead() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	head := j.Shower.Head
	if head == nil {
		return
	}
	at := head.At.Vec3(m.buildUp().FinishedMM(head.At) + head.HeightMM)
	if nearest := l.Untanked.EdgeMM(head.At); !math.IsInf(nearest, 1) && len(l.OpenEdges()) > 0 {
		m.add("tanking.from-head", of(rule.FloorTanking), nearest, at)
	}
	to := h.TileMM + j.Layers.TankedToMM()
	if j.Layers.Wall.Tanking.ThicknessMM == 0 {
		to = h.TileMM
	}
	if to < j.Room.HeightMM {
		m.add("tanking.over-head", of(rule.WallTanking), to-at.Z(), at)
	}
}

// tankedWalls is the least height to which the shower's walls are tanked, above the
// finished floor at their feet, and where; ok is false for a shower without walls.
func (m *Measurer) tankedWalls() (leastMM float64, at plan.Point, ok bool) {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	head := math.Min(j.Room.HeightMM, h.TileMM+j.Layers.TankedToMM())
	if j.Layers.Wall.Tanking.ThicknessMM == 0 {
		head = math.Inf(-1)
	}
	leastMM = math.Inf(1)
	put := func(a, b plan.Point) {
		for _, p := range [2]plan.Point{a, b} {
			if to := math.Max(0, head-h.ShowerAt(l, p)); to < leastMM-plan.HairMM {
				leastMM, at, ok = to, p, true
			}
		}
	}
	if j.Former.Fall == job.FallRoom {
		for _, w := range l.Walls {
			put(w.A, w.B)
		}
		return leastMM, at, ok
	}
	for _, e := range l.Edges {
		if e.Wall >= 0 {
			put(e.A, e.B)
		}
	}
	return leastMM, at, ok
}

// layerCautions are those of what is found, cut and heated.
func (m *Measurer) layerCautions() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	middle := l.Shower.Centroid()
	at := middle.Vec3(h.StructureAt(j, l, middle))
	cut := 0
	for i, e := range j.Floor.Existing {
		shower, room := j.Floor.Where(i)
		if e.Kind == job.ExistingMembrane && (!shower || !room || j.Base.Support != job.OnFloor || j.Waste.Exit.Kind == job.ExitFloor) {
			cut++
		}
	}
	if cut > 0 {
		m.add("caution.membrane", of(rule.ExistingMembrane), float64(cut), at)
	}
	if down := j.SetDown(); down > 0 {
		m.add("caution.set-down", of(rule.SetDownSlab), down, at)
	}
}
