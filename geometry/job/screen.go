package job

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// ShowerSide is a side of the shower as seen facing its back wall.
type ShowerSide string

// The sides of the shower.
const (
	SideBack  ShowerSide = "back"
	SideRight ShowerSide = "right"
	SideFront ShowerSide = "front"
	SideLeft  ShowerSide = "left"
)

// ScreenKind is how a screen opens.
type ScreenKind string

// The kinds of screen.
const (
	ScreenPane  ScreenKind = "pane"  // fixed
	ScreenPanel ScreenKind = "panel" // short, turned aside by hand
	ScreenDoor  ScreenKind = "door"  // hinged
	ScreenSlide ScreenKind = "slide" // slides along itself
)

// Screen is a screen of glass along an open side of the shower.
type Screen struct {
	Kind ScreenKind `json:"kind"`
	Side ShowerSide `json:"side"`
	// OffsetMM is to the screen from the side's left end, from its back end at the left
	// and right sides; WidthMM is along the side.
	OffsetMM float64 `json:"offsetMM"`
	WidthMM  float64 `json:"widthMM"`
	// HeightMM is over the highest tile under it, GapMM is left under it.
	HeightMM    float64 `json:"heightMM"`
	ThicknessMM float64 `json:"thicknessMM"`
	GapMM       float64 `json:"gapMM"`
	// HingeAtEnd tells that a panel or door hangs at its far end, away from where
	// OffsetMM counts from.
	HingeAtEnd bool `json:"hingeAtEnd,omitempty"`
	// OpensIn tells that a door opens into the shower, not out of it.
	OpensIn bool `json:"opensIn,omitempty"`
	// KeepsMM is how much of its width a sliding screen keeps when it is open: what it slides
	// behind, and its edge.
	KeepsMM float64 `json:"keepsMM,omitempty"`
}

// Opens tells whether the screen can be moved out of the way.
func (s Screen) Opens() bool { return s.Kind != ScreenPane }

// Hangs tells whether it turns about a hinge.
func (s Screen) Hangs() bool { return s.Kind == ScreenPanel || s.Kind == ScreenDoor }

// OpenKeepsMM is how much of the way through it the open screen keeps.
func (s Screen) OpenKeepsMM() float64 {
	if s.Kind == ScreenSlide {
		return math.Min(s.KeepsMM, s.WidthMM)
	}
	return s.ThicknessMM
}

// Head is the fixed shower head: the rose that the water comes from.
type Head struct {
	At plan.Point `json:"at"`
	// HeightMM is over the finished floor under it.
	HeightMM float64 `json:"heightMM"`
}

// Kerb is an upstand on the tile along the inside of the open edges, level all round,
// tanked over and tiled, that holds water back.
type Kerb struct {
	// HeightMM is over the highest finished floor beside it, within or without.
	HeightMM float64 `json:"heightMM"`
	WidthMM  float64 `json:"widthMM"`
}

// usualKerb is one brick wide and high enough to hold water, low enough to step over.
// Common practice, no source.
func usualKerb(*Job) Kerb { return Kerb{HeightMM: 75, WidthMM: 100} }

// Stretch is a part of a side of the shower, by distances from the side's first corner as
// ShowerCorners lists them; Wall is the wall it stands against, -1 for an open one.
type Stretch struct {
	FromMM, ToMM float64
	Wall         int
}

// AtWallMM is how far off a side of the shower a wall may lie, beside that side, and be its wall, and the shortest stretch
// that counts: what the bed of the wall's tile takes up where a wall is out of square, with no joint at the floor that is
// seen. Common practice, no source.
const AtWallMM = 5

// ShowerSides divides the sides of a shower in a sound room, back, right, front and left,
// into stretches against walls and open ones, each side from its first corner on.
func (j Job) ShowerSides() (out [4][]Stretch) {
	corners := j.ShowerCorners()
	for i := range out {
		out[i] = j.stretches(corners[i], corners[(i+1)%4])
	}
	return out
}

// ShowerInCorner tells whether the shower stands in the corner where its wall, one of the room's, starts and in that where it ends.
func (j *Job) ShowerInCorner() (start, end bool) {
	s := &j.Shower
	return math.Abs(s.OffsetMM) <= AtWallMM, math.Abs(j.Room.WallLengthMM(s.Wall)-s.OffsetMM-s.WidthMM) <= AtWallMM
}

func (j Job) stretches(a, b plan.Point) (out []Stretch) {
	length := b.Sub(a).Len()
	var walled []Stretch
	for w := range j.Room.Outline {
		if s, ok := j.Room.wallBeside(w, a, b); ok {
			walled = append(walled, s)
		}
	}
	slices.SortStableFunc(walled, func(s, o Stretch) int { return cmp.Compare(s.FromMM, o.FromMM) })
	add := func(from, to float64, wall int) {
		if to-from > AtWallMM {
			out = append(out, Stretch{from, to, wall})
		}
	}
	at := 0.0
	for _, s := range walled {
		add(at, s.FromMM, -1)
		add(math.Max(at, s.FromMM), s.ToMM, s.Wall)
		at = math.Max(at, s.ToMM)
	}
	add(at, length, -1)
	return out
}

// wallBeside is the stretch of a side of the shower, from one corner to the next, that a wall lies beside; ok is false
// where it lies farther off there than its finish takes up. How far off it is elsewhere is no matter.
func (r *Room) wallBeside(wall int, a, b plan.Point) (s Stretch, ok bool) {
	along, length := b.Sub(a).Normalize(), b.Sub(a).Len()
	p, q := r.Outline[wall].Sub(a), r.Outline[(wall+1)%len(r.Outline)].Sub(a)
	from, to := p.Dot(along), q.Dot(along)
	offP, offQ := plan.Cross(along, p), plan.Cross(along, q)
	if from > to {
		from, to, offP, offQ = to, from, offQ, offP
	}
	s = Stretch{math.Max(0, from), math.Min(length, to), wall}
	if s.ToMM-s.FromMM <= AtWallMM {
		return s, false
	}
	off := func(mm float64) float64 { return math.Abs(offP + (offQ-offP)*(mm-from)/(to-from)) }
	return s, off(s.FromMM) <= AtWallMM && off(s.ToMM) <= AtWallMM
}

// Sizes of a usual screen and of a shower head. Common practice, no source.
const (
	screenThicknessMM = 8
	screenHeightMM    = 2000
	screenGapMM       = 4
	screenDoorGapMM   = 8
	screenMostMM      = 1000
	screenShare       = 0.95 // of a side, the rest a way past it
	headHeightMM      = 2100
)

// usualScreen is of a sound job: a pane on an open side that meets a wall, from the wall's finish on: at
// the left or right before the front, where the way in is; ok is false where the shower
// has no place for one.
func usualScreen(j *Job) (s Screen, ok bool) {
	if j.Former.Fall == FallRoom {
		return s, false
	}
	corners, best := j.ShowerCorners(), 0.0
	for i, side := range j.ShowerSides() {
		name := ShowerSides().Choices[i].Value
		for _, open := range side {
			long := open.ToMM - open.FromMM
			score := math.Min(long, screenMostMM)
			switch {
			case open.Wall >= 0:
				continue
			case name == SideLeft || name == SideRight:
				score *= 3
			case long < screenMostMM:
				continue // the way in
			}
			if score > best {
				best, ok = score, true
				s = j.paneOn(name, open, corners[i], corners[(i+1)%4])
			}
		}
	}
	return s, ok
}

// paneOn is a usual pane on an open stretch of a side between two corners, from its end
// that is nearer to a wall.
func (j *Job) paneOn(side ShowerSide, open Stretch, a, b plan.Point) Screen {
	along := b.Sub(a).Normalize()
	finish := j.Layers.Wall.ThicknessMM()
	length := math.Min((open.ToMM-open.FromMM)*screenShare, screenMostMM)
	from, to := open.FromMM+finish, open.FromMM+length
	if j.wallNearMM(a.Add(along.Mul(open.ToMM))) < j.wallNearMM(a.Add(along.Mul(open.FromMM))) {
		from, to = open.ToMM-length, open.ToMM-finish
	}
	if side == SideFront || side == SideLeft {
		whole := b.Sub(a).Len()
		from, to = whole-to, whole-from
	}
	return Screen{Kind: ScreenPane, Side: side, OffsetMM: from, WidthMM: to - from,
		HeightMM: screenHeightMM, ThicknessMM: screenThicknessMM, GapMM: screenGapMM}
}

// wallNearMM is how near the nearest wall is.
func (j *Job) wallNearMM(p plan.Point) float64 {
	near := math.Inf(1)
	for i, a := range j.Room.Outline {
		near = math.Min(near, plan.DistanceToSegment(p, a, j.Room.Outline[(i+1)%len(j.Room.Outline)]))
	}
	return near
}

// addedScreen is the screen that is added to a job: the usual one, or where that is there
// already or has no place a door in the front.
func addedScreen(j *Job) Screen {
	s, ok := usualScreen(j)
	for _, o := range j.Shower.Screens {
		ok = ok && o.Side != s.Side
	}
	if !ok {
		s = Screen{Kind: ScreenDoor, Side: SideFront, WidthMM: 700,
			HeightMM: screenHeightMM, ThicknessMM: screenThicknessMM, GapMM: screenDoorGapMM}
	}
	return s
}

// Glaze has the first of the shower's screens open in a way, or be added where there is none; the empty kind takes all away.
func (j *Job) Glaze(kind ScreenKind) {
	if kind == "" {
		j.Shower.Screens = nil
		return
	}
	if len(j.Shower.Screens) == 0 {
		j.Shower.Screens = []Screen{addedScreen(j)}
	}
	s := &j.Shower.Screens[0]
	if s.Kind == kind {
		return
	}
	s.Kind, s.KeepsMM, s.HingeAtEnd, s.OpensIn = kind, 0, false, false
	if kind == ScreenDoor {
		s.GapMM = math.Max(s.GapMM, screenDoorGapMM)
	}
}

// usualHead hangs over the middle of the shower.
func usualHead(j *Job) Head {
	c := j.ShowerCorners()
	middle := c[0].Add(c[2]).Mul(0.5)
	return Head{plan.Point{math.Round(middle.X()), math.Round(middle.Y())}, headHeightMM}
}

// headList is the list of the fixed shower head, where it is known.
func headList() List {
	return single("shower.head", func(j *Job) **Head { return &j.Shower.Head }, usualHead,
		placeX(func(h *Head) *plan.Point { return &h.At }),
		placeY(func(h *Head) *plan.Point { return &h.At }),
		length("heightMM", 500, 5000, 10, func(h *Head) *float64 { return &h.HeightMM }))
}

// kerbList is the list of the kerb, if there is one.
func kerbList() List {
	return single("shower.kerb", func(j *Job) **Kerb { return &j.Shower.Kerb }, usualKerb,
		length("heightMM", 5, 400, 5, func(k *Kerb) *float64 { return &k.HeightMM }),
		length("widthMM", 20, 400, 5, func(k *Kerb) *float64 { return &k.WidthMM }))
}

// screenList is the list of the screens.
func screenList() List {
	return listed("shower.screens", mostScreens, func(j *Job) *[]Screen { return &j.Shower.Screens }, addedScreen,
		choose("kind", ScreenKinds(), func(s *Screen) *ScreenKind { return &s.Kind }),
		choose("side", ShowerSides(), func(s *Screen) *ShowerSide { return &s.Side }),
		along("offsetMM", 0, farthestMM, 10, func(s *Screen) *float64 { return &s.OffsetMM }),
		length("widthMM", 50, 5000, 10, func(s *Screen) *float64 { return &s.WidthMM }),
		length("heightMM", 100, 4000, 10, func(s *Screen) *float64 { return &s.HeightMM }),
		lessUsed(number("thicknessMM", unit.Length, 3, 60, 0.5, func(s *Screen) *float64 { return &s.ThicknessMM })),
		lessUsed(number("gapMM", unit.Length, 0, 100, 1, func(s *Screen) *float64 { return &s.GapMM })),
		where(func(s *Screen) bool { return s.Hangs() }, yes("hingeAtEnd", func(s *Screen) *bool { return &s.HingeAtEnd })),
		where(func(s *Screen) bool { return s.Kind == ScreenDoor }, yes("opensIn", func(s *Screen) *bool { return &s.OpensIn })),
		lessUsed(where(func(s *Screen) bool { return s.Kind == ScreenSlide },
			along("keepsMM", 0, 5000, 5, func(s *Screen) *float64 { return &s.KeepsMM }))))
}
