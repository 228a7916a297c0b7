// Package section draws: exact sections of an assembly on a plane, with
// hatches, dimensions and level marks, and the plan. A drawing is in
// millimetres of the model; line weights, text and the spacing of hatches are
// left to whoever puts it on paper or screen.
package section

import (
	"image/color"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Weight is the weight of a line, in steps of √2 as in ISO 128-2.
type Weight int

// The weights.
const (
	Thin Weight = iota
	Medium
	Heavy
)

// Line is a chain of straights.
type Line struct {
	Points []plan.Point
	Weight Weight
	Dashed bool
	Kind   string // what it stands for: "joist", "run", "room"
}

// Area is a cut or seen face of one part.
type Area struct {
	PartID   string
	Name     message.Message
	Material material.Material
	Region   plan.Region
	// Cut faces are hatched and drawn with heavy outlines. Hatched is one that is seen
	// and hatched all the same, to be told from what is round it.
	Cut, Hatched bool
	// Colour is its own, of a finish; zero for its material's.
	Colour color.RGBA
	// FallDeg is how the fall lies in the drawing, anticlockwise from level; 0 where it has
	// none.
	FallDeg float64
}

// Pattern is how the area is hatched where it is.
func (a *Area) Pattern() material.Pattern {
	p := PatternOf(a.Material)
	switch {
	case a.Hatched && p.Solid:
		return material.Marked()
	case p.AlongFall:
		return p.Turned(a.FallDeg)
	}
	return p
}

// Below is a part that lies under what a plan shows: it is outlined where it is chosen.
type Below struct {
	PartID string
	Region plan.Region
}

// Dimension is the distance between two points, drawn square to the line
// between them at a distance on paper.
type Dimension struct {
	From, To plan.Point
	Text     message.Message
	// Row counts dimension lines outwards from the drawing, from one; Side is
	// the direction they stand off in.
	Row  int
	Side plan.Point
	// Step tells that it measures a step that one walks over, which is told however low it is.
	Step bool
	// OffCut is of what is clear over the floor: it is rather not told than written over what is cut.
	OffCut bool
	// Key is the parameter that the dimension shows, if it shows just one, or the path of the wall
	// whose length it is.
	Key string
	// HangsOn are paths of the job's file of what it is worked out from, where it cannot be typed and that is told;
	// else none.
	HangsOn []string
}

// What is marked in a drawing.
const (
	MarkTile       message.ID = "mark.tile"
	MarkFormer     message.ID = "mark.former"
	MarkBase       message.ID = "mark.base"
	MarkFloor      message.ID = "mark.floor" // the bare one in the shower
	MarkRoomFloor  message.ID = "mark.room-floor"
	MarkDatum      message.ID = "mark.datum" // the floor where heights are struck from
	MarkStructure  message.ID = "mark.structure"
	MarkInvert     message.ID = "mark.invert"
	MarkCrown      message.ID = "mark.crown"
	MarkCore       message.ID = "mark.core" // hole through a wall: its size and its middle
	MarkLeastCover message.ID = "mark.least-cover"
	MarkBed        message.ID = "mark.bed"      // under the base, by the floor's plane
	MarkBedRead    message.ID = "mark.bed-read" // the same, by a reading
	// What has no level: it is told by its name.
	MarkNorth message.ID = "mark.north"
	MarkStack message.ID = "mark.stack"
	MarkVent  message.ID = "mark.vent"
	MarkGully message.ID = "mark.gully"
	MarkDrain message.ID = "mark.drain"
	// MarkJoinNotKnown is where the waste ends outside while nobody knows what it joins there.
	MarkJoinNotKnown message.ID = "mark.join-not-known"
	MarkPump         message.ID = "mark.pump"
	// MarkStackOutside is a stack outside of which nothing is known, MarkBranch the one that
	// the run joins with its branch.
	MarkStackOutside message.ID = "mark.stack-outside"
	MarkBranch       message.ID = "mark.branch"
	// MarkPumpInlet and MarkDischarge are where the waste comes into a pump and goes up from
	// it, MarkWayDown the bend and the pipe down outside, MarkHole the one through the floor.
	MarkPumpInlet message.ID = "mark.pump-inlet"
	MarkDischarge message.ID = "mark.discharge"
	MarkWayDown   message.ID = "mark.way-down"
	MarkHole      message.ID = "mark.hole"
	// MarkStop is where the run stops the job.
	MarkStop  message.ID = "mark.stop"
	MarkPiece message.ID = "mark.piece" // of the run, which a finding speaks of
	// MarkPieceInvert is the invert in a piece of the run, with its name.
	MarkPieceInvert message.ID = "mark.piece-invert"
	MarkOldPipe     message.ID = "mark.old-pipe"
	// The pipe where a cut along it goes past it.
	MarkPipeBehind message.ID = "mark.pipe-behind"
	MarkPipeBefore message.ID = "mark.pipe-before"
	// The same where their sizes are not known.
	MarkDischargeUnsized message.ID = "mark.discharge-unsized"
	MarkOldPipeUnsized   message.ID = "mark.old-pipe-unsized"
	// The end of a pipe that was found, without its level and with it.
	MarkPipeEnd      message.ID = "mark.pipe-end"
	MarkPipeEndLevel message.ID = "mark.pipe-end-level"

	MarkBoxing   message.ID = "mark.boxing"
	MarkFlashing message.ID = "mark.flashing" // over a sleeve, with its weep holes
	// MarkWaterStop is one along a pane or at a doorway, with how far it stands over the floor.
	MarkWaterStop message.ID = "mark.water-stop"

	// The damp-proof course of a wall, and the ground outside it.
	MarkDampCourse message.ID = "mark.damp-course"
	MarkGround     message.ID = "mark.ground"
	MarkCeiling    message.ID = "mark.ceiling"

	MarkBeyond message.ID = "mark.beyond" // the floor beyond a doorway
	// MarkBeyondAssumed is it where nobody has said how high it lies.
	MarkBeyondAssumed message.ID = "mark.beyond-assumed"

	MarkWord message.ID = "mark.word" // what the place is called

	MarkBasin    message.ID = "mark.basin"
	MarkToilet   message.ID = "mark.toilet"
	MarkRadiator message.ID = "mark.radiator"
	MarkCupboard message.ID = "mark.cupboard"
)

// Mark is a level mark: what is marked and its level.
type Mark struct {
	At      plan.Point
	Of      message.ID
	LevelMM float64
	// ThicknessMM is what the marks of a cover and a bed tell in the place of a level, the size of a core hole, how
	// far a pipe lies off a cut and how far a water stop stands over the floor.
	ThicknessMM float64
	// Number tells a stack or a pipe end from others, counted from one.
	Number int
	// Size is the size of a pipe that is marked, Branch that of what joins it; zero where it
	// is not known.
	Size, Branch message.Message
	// Said is what stands at a mark of its own words.
	Said message.Message
	// Under has it written below whatever it marks.
	Under bool
}

// Message is what stands at the mark.
func (m Mark) Message() message.Message {
	switch m.Of {
	case MarkCore:
		return message.Of(m.Of, message.MM("size", m.ThicknessMM), message.At("level", m.LevelMM))
	case MarkDatum:
		return message.Of(m.Of, message.In("on", m.Said), message.At("level", m.LevelMM))
	case MarkStop:
		return message.Of(m.Of, message.In("finding", m.Said))
	case MarkPieceInvert:
		return message.Of(m.Of, message.In("piece", m.Said), message.At("level", m.LevelMM))
	case MarkPiece:
		return message.Of(m.Of, message.In("piece", m.Said))
	case MarkWord:
		return message.Of(m.Of, message.In("word", m.Said))
	case MarkNorth, MarkCeiling, MarkGully, MarkDrain, MarkJoinNotKnown, MarkPump, MarkBoxing, MarkFlashing, MarkStackOutside, MarkBasin, MarkToilet, MarkRadiator, MarkCupboard:
		return message.Of(m.Of)
	case MarkVent:
		return message.Of(m.Of, message.In("size", m.Size))
	case MarkStack:
		return message.Of(m.Of, message.No("n", m.Number), message.In("size", m.Size))
	case MarkBranch:
		return message.Of(m.Of, message.No("n", m.Number), message.In("size", m.Size), message.In("branch", m.Branch))
	case MarkDischarge:
		if !m.Size.IsZero() {
			return message.Of(m.Of, message.In("size", m.Size), message.At("level", m.LevelMM))
		}
		return message.Of(MarkDischargeUnsized, message.At("level", m.LevelMM))
	case MarkOldPipe:
		if !m.Size.IsZero() {
			return message.Of(m.Of, message.In("size", m.Size))
		}
		return message.Of(MarkOldPipeUnsized)
	case MarkHole:
		return message.Of(m.Of, message.MM("size", m.ThicknessMM))
	case MarkWaterStop:
		return message.Of(m.Of, message.MM("over", m.ThicknessMM))
	case MarkPipeEndLevel:
		return message.Of(m.Of, message.No("n", m.Number), message.At("level", m.LevelMM))
	case MarkPipeEnd:
		return message.Of(m.Of, message.No("n", m.Number))
	case MarkPipeBehind, MarkPipeBefore:
		return message.Of(m.Of, message.Along("aside", m.ThicknessMM))
	case MarkLeastCover:
		return message.Of(m.Of, message.Layer("cover", m.ThicknessMM))
	case MarkBed, MarkBedRead:
		return message.Of(m.Of, message.Layer("bed", m.ThicknessMM))
	}
	return message.Of(m.Of, message.At("level", m.LevelMM))
}

// onlyNames tells whether the mark says what stands there, and no level that a section has as well.
func (m Mark) onlyNames() bool {
	switch m.Of {
	case MarkGully, MarkJoinNotKnown, MarkPump, MarkStack, MarkStackOutside, MarkVent, MarkPipeEnd, MarkBoxing:
		return true
	}
	return false
}

// sizeOf is how a pipe's nominal size is written: as the chosen system has it, where it has
// it; zero where it is not known.
func sizeOf(r *geometry.Result, nominalMM float64) message.Message {
	if nominalMM == 0 {
		return message.Message{}
	}
	if system := r.Settled.Parts.Pipe; system != nil {
		if z, sold := system.Size(nominalMM); sold && z.Called != "" {
			return z.Name()
		}
	}
	return message.Of("dimension.size", message.Nominal("size", nominalMM))
}

// Below tells whether the mark is of what lies below the floor, and is written there.
func (m Mark) Below() bool {
	return m.Under || m.Of == MarkInvert || m.Of == MarkPieceInvert || m.Of == MarkStructure
}

// length is the text of a dimension along the floor or a wall, as it is read on a tape: in whole millimetres.
func length(mm float64) message.Message {
	return message.Of("dimension.length", message.Along("length", mm))
}

// Handle is a place that can be dragged, and what it moves.
type Handle struct {
	At    plan.Point
	Moves edit.Handle
}

// Drawing is everything on a sheet or in a view, before it has a scale.
type Drawing struct {
	Areas      []Area
	Below      []Below
	Lines      []Line
	Dimensions []Dimension
	Marks      []Mark
	Notes      []Note
	Names      []Name
	SetOuts    []SetOut
	Tapes      []Tape
	Diagonals  []Diagonal
	OffSquare  *OffSquare // nil for none
	Readings   []Reading
	List       List
	Handles    []Handle
	// Things are what can be chosen by itself in a plan, in the order in which one goes through them.
	Things []Thing
	// Over are straights that a window lays over the drawing, which no text is to lie under.
	Over      [][2]plan.Point
	Low, High plan.Point
	// FocusLow and FocusHigh hold what is looked at first.
	FocusLow, FocusHigh plan.Point
	// Shows are places beside that which have to show as well, however close to the rim of the picture.
	Shows []plan.Point
	// Cut is the plane the drawing lies on.
	Cut solid.Cut
	// Fault says what is not drawn as it should be; zero when all is.
	Fault message.Message
	// Rise is how many times heights are exaggerated in a section along the waste;
	// 0 in other drawings.
	Rise float64
}

// List is what there is to read beside a drawing, line by line, from its upper left corner to the
// right: in as many columns as a view needs for it.
type List struct {
	At     plan.Point
	HighMM float64
	Lines  []ListLine
}

// ListLine is a line of a list, and the number of what it tells of.
type ListLine struct {
	Text   message.Message
	Number int
}

// Bare is the drawing without anything written in it.
func (d Drawing) Bare() Drawing {
	d.Dimensions, d.Marks, d.Notes, d.Names, d.SetOuts, d.List = nil, nil, nil, nil, nil, List{}
	d.Tapes, d.Diagonals, d.OffSquare, d.Readings = nil, nil, nil, nil
	return d
}

// bound sets the drawing's extent from its areas and lines.
func (d *Drawing) bound() {
	d.Low, d.High = plan.Point{}, plan.Point{}
	found := false
	include := func(p plan.Point) {
		if !found {
			d.Low, d.High, found = p, p, true
		}
		d.Low = plan.Point{math.Min(d.Low.X(), p.X()), math.Min(d.Low.Y(), p.Y())}
		d.High = plan.Point{math.Max(d.High.X(), p.X()), math.Max(d.High.Y(), p.Y())}
	}
	for _, a := range d.Areas {
		for _, p := range a.Region {
			for _, q := range p.Outer {
				include(q)
			}
		}
	}
	for _, l := range d.Lines {
		for _, q := range l.Points {
			include(q)
		}
	}
	d.FocusLow, d.FocusHigh = d.Low, d.High
}

// At is the area under a point of the drawing: the one drawn last.
func (d Drawing) At(p plan.Point) (Area, bool) {
	for i := len(d.Areas) - 1; i >= 0; i-- {
		if d.Areas[i].Region.Contains(p, 0) {
			return d.Areas[i], true
		}
	}
	return Area{}, false
}

// Snap is the corner of the drawing nearest to a point within reach; ok is
// false when there is none.
func (d Drawing) Snap(p plan.Point, reachMM float64) (plan.Point, bool) {
	best, at := reachMM, plan.Point{}
	for _, a := range d.Areas {
		for _, poly := range a.Region {
			for _, ring := range poly.Rings() {
				for _, q := range ring {
					if l := q.Sub(p).Len(); l < best {
						best, at = l, q
					}
				}
			}
		}
	}
	return at, best < reachMM
}

// planOf is the plan point under a point of the model.
func planOf(p mgl64.Vec3) plan.Point { return plan.Point{p.X(), p.Y()} }
