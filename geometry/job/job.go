// Package job holds what a person states about a shower floor: the survey,
// the base, the former, the drain, the waste run, the finishes and the water.
// A Job is a value; nothing in it is derived. Everything else in Underfall is
// worked out from it.
package job

import (
	"maps"
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Version is the version of the job format this program writes.
const Version = 11

// Job is one shower floor as stated. Lengths are millimetres, levels are
// heights above the survey's datum, which lies on what levels were read on: the
// structural floor unless Floor.ReadOn says otherwise; angles are
// degrees, falls are rise over run, flows are litres per second.
type Job struct {
	Version int `json:"version"`
	// State counts the states that were saved, so that paper tells which it is of; 0 of a job that never was.
	State  int    `json:"state,omitempty"`
	Name   string `json:"name"`
	Notes  string `json:"notes,omitempty"`
	Region string `json:"region"`
	// Edition is of the region's rules that the job was drawn up under: a year and a month.
	// Empty where that was not kept.
	Edition    string      `json:"edition,omitempty"`
	Accessible bool        `json:"accessible"`
	Units      unit.System `json:"units"`
	Room       Room        `json:"room"`
	Floor      Floor       `json:"floor"`
	SpotLevels []SpotLevel `json:"spotLevels,omitempty"`
	Laser      Laser       `json:"laser,omitzero"`
	Shower     Shower      `json:"shower"`
	Base       Base        `json:"base"`
	Former     Former      `json:"former"`
	Drain      Drain       `json:"drain"`
	Waste      Waste       `json:"waste"`
	Layers     Layers      `json:"layers"`
	Water      Water       `json:"water"`
	Tolerances Tolerances  `json:"tolerances"`
	AsBuilt    AsBuilt     `json:"asBuilt,omitzero"`
	Style      Style       `json:"style"`
	Parts      Parts       `json:"parts,omitzero"`
	// Picture is how the finished room is shown; nil as is usual.
	Picture *Picture `json:"picture,omitempty"`
	// Standings are how far inputs are known and held, by their paths in the file; an input
	// that is not here is stated.
	Standings map[string]Standing `json:"standings,omitempty"`
}

// Room is the outline of the bare inner wall faces, counter-clockwise or
// clockwise, with one wall for each corner: from it, the wall's start corner, to
// the next. In a file the outline is left out where it is worked out from what was measured.
type Room struct {
	Outline  []plan.Point `json:"outline,omitempty"`
	Tape     Tape         `json:"tape,omitzero"`
	Walls    []Wall       `json:"walls"`
	Doorways []Doorway    `json:"doorways,omitempty"`
	Windows  []Window     `json:"windows,omitempty"`
	Stacks   []Stack      `json:"stacks,omitempty"`
	Slopes   []Slope      `json:"slopes,omitempty"`
	Fixtures []Fixture    `json:"fixtures,omitempty"`
	PipeEnds []PipeEnd    `json:"pipeEnds,omitempty"`
	HeightMM float64      `json:"heightMM"`
	// North is where north lies in plan; nil when it is not known.
	North     *North   `json:"north,omitempty"`
	Edge      EdgeKind `json:"edge"`
	RampRunMM float64  `json:"rampRunMM,omitempty"`
}

// EdgeKind says how the shower's open edges meet the room.
type EdgeKind string

// What is done at the open edge.
const (
	EdgeStep      EdgeKind = "step"       // the room stays; the difference is a step
	EdgeRamp      EdgeKind = "ramp"       // a ramp of RampRunMM outside the open edge
	EdgeRaiseRoom EdgeKind = "raise-room" // the whole room comes up to the open edge
)

// WallKind is what a wall is made of.
type WallKind string

// The kinds of wall.
const (
	WallMasonry WallKind = "masonry"
	WallCavity  WallKind = "cavity"
	WallStud    WallKind = "stud"
)

// Wall is one side of the room.
type Wall struct {
	// Name is what people call it beside its letter; empty for no name of its own.
	Name        string   `json:"name,omitempty"`
	Kind        WallKind `json:"kind"`
	ThicknessMM float64  `json:"thicknessMM"`
	// Studs stand StudSpacingMM apart between centres, the first FirstStudMM
	// from the wall's start corner.
	StudSpacingMM float64 `json:"studSpacingMM,omitempty"`
	FirstStudMM   float64 `json:"firstStudMM,omitempty"`
	StudWidthMM   float64 `json:"studWidthMM,omitempty"`
	// SolePlateMM is how thick the plate is that they stand on; 0 for the usual 38.
	SolePlateMM float64 `json:"solePlateMM,omitempty"`
	// InnerLeafMM and CavityMM are the thicknesses of the inner leaf of a cavity wall and of the
	// cavity, the rest its outer leaf; 0 where they are not known.
	InnerLeafMM float64 `json:"innerLeafMM,omitempty"`
	CavityMM    float64 `json:"cavityMM,omitempty"`
	// OutsideGroundMM is the level of the ground outside; absent for a wall
	// with no outside.
	OutsideGroundMM *float64 `json:"outsideGroundMM,omitempty"`
	// DampCourseMM is the level of the damp-proof course in it; absent without one.
	DampCourseMM *float64 `json:"dampCourseMM,omitempty"`
}

// From is the part of the wall from a distance along it on: its first stud is the next one there.
func (w Wall) From(mm float64) Wall {
	if w.Kind == WallStud && w.StudSpacingMM > 0 {
		if w.FirstStudMM = math.Mod(w.FirstStudMM-mm, w.StudSpacingMM); w.FirstStudMM < 0 {
			w.FirstStudMM += w.StudSpacingMM
		}
	}
	w.OutsideGroundMM, w.DampCourseMM = clonePointer(w.OutsideGroundMM), clonePointer(w.DampCourseMM)
	return w
}

// usualSolePlateMM is how thick sole plates mostly are. Common practice, no source.
const usualSolePlateMM = 38

// SolePlate is how thick the plate under a stud wall is, as stated or usual.
func (w Wall) SolePlate() float64 {
	if w.SolePlateMM > 0 {
		return w.SolePlateMM
	}
	return usualSolePlateMM
}

// Leaf is one leaf of a wall: from where to where through it from its inner face.
type Leaf struct{ FromMM, ToMM float64 }

// Leaves are those of the wall: two where it has a cavity and both leaves are known; else all
// of it.
func (w Wall) Leaves() []Leaf {
	if w.Kind != WallCavity || w.InnerLeafMM == 0 || w.CavityMM == 0 || w.InnerLeafMM+w.CavityMM >= w.ThicknessMM {
		return []Leaf{{0, w.ThicknessMM}}
	}
	return []Leaf{{0, w.InnerLeafMM}, {w.InnerLeafMM + w.CavityMM, w.ThicknessMM}}
}

// FloorKind is what the structural floor is.
type FloorKind string

// The kinds of structural floor.
const (
	FloorSlab   FloorKind = "slab"
	FloorTimber FloorKind = "timber"
)

// Floor is the structural floor. What levels were read on is level zero at the datum point.
type Floor struct {
	Kind            FloorKind `json:"kind"`
	SlabThicknessMM float64   `json:"slabThicknessMM,omitempty"`
	Deck            Deck      `json:"deck"`
	Joists          Joists    `json:"joists"`
	// CeilingBelow tells that trap and pipe must stay above the underside of
	// the joists.
	CeilingBelow bool `json:"ceilingBelow,omitempty"`
	// SetDownMM is how far the top of a slab lies lower under the shower's floor.
	SetDownMM float64 `json:"setDownMM,omitempty"`
	// Existing are the layers found on the structural floor, from it up.
	Existing []Existing `json:"existing,omitempty"`
	// ReadOn is what a staff stood on where levels were read; empty for the structural floor.
	ReadOn ReadOn `json:"readOn,omitempty"`
}

// Deck is the boarding on the joists.
type Deck struct {
	ThicknessMM float64 `json:"thicknessMM,omitempty"`
}

// Joists of a timber floor.
type Joists struct {
	DepthMM   float64 `json:"depthMM,omitempty"`
	WidthMM   float64 `json:"widthMM,omitempty"`
	SpacingMM float64 `json:"spacingMM,omitempty"` // between centres
	// DirectionDeg is the direction the joists run, from the X axis.
	DirectionDeg float64 `json:"directionDeg,omitempty"`
	// FirstOffsetMM is from the room's outermost point on the right-hand side,
	// looking along the joists, to the first centre line.
	FirstOffsetMM float64 `json:"firstOffsetMM,omitempty"`
	// SupportsMM are the lines of support, measured along the joists from the
	// room's outermost point; at least two.
	SupportsMM []float64 `json:"supportsMM,omitempty"`
	// BearingMM is how far joists lie on each support; 0 while it is not known.
	BearingMM float64 `json:"bearingMM,omitempty"`
	// Trims are the openings for which joists are cut out between trimmers.
	Trims []Trim `json:"trims,omitempty"`
	// Timber is a copy of their strength class; absent while it is not known.
	Timber *part.Timber `json:"timber,omitempty"`
	// Engineered joists (I-joist, metal web) are never cut on site.
	Engineered bool `json:"engineered,omitempty"`
	// Damp joists lie over what is not heated, as a ventilated space under a ground floor:
	// service class 2 of EN 1995-1-1, 2.3.1.3.
	Damp bool `json:"damp,omitempty"`
}

// SpotLevel is one laser reading on the structural floor.
type SpotLevel struct {
	At          plan.Point `json:"at"`
	LevelMM     float64    `json:"levelMM"`
	ToleranceMM float64    `json:"toleranceMM,omitempty"`
	// Reading is the number of the reading down from a laser that it is worked out from, counted from 1; 0 where
	// it is stated. Those that are worked out stand after all others, and in no file.
	Reading int `json:"-"`
}

// UsualReadingMM is how well a careful laser reading tells a level, plus or
// minus. Common practice, no source.
const UsualReadingMM = 1

// Shower is the shower's floor: a rectangle against one wall.
type Shower struct {
	Wall     int     `json:"wall"`     // index of the wall at its back
	OffsetMM float64 `json:"offsetMM"` // from that wall's start corner to the shower
	WidthMM  float64 `json:"widthMM"`  // along the wall
	DepthMM  float64 `json:"depthMM"`  // away from the wall
	// Head is where the water comes from; absent while it is not known.
	Head    *Head    `json:"head,omitempty"`
	Screens []Screen `json:"screens,omitempty"`
	// Kerb runs along the open edges; absent for none. It counts for nothing where the
	// whole room falls.
	Kerb *Kerb `json:"kerb,omitempty"`
}

// SupportKind says what the base stands on.
type SupportKind string

// Where the base goes.
const (
	OnFloor       SupportKind = "on-floor"
	BetweenJoists SupportKind = "between-joists"
)

// HeightMode says what sets the height of the base.
type HeightMode string

// How the height is set.
const (
	// HeightChosen is stated.
	HeightChosen HeightMode = "chosen"
	// HeightBare is where everything just fits, touching what it lies on.
	HeightBare HeightMode = "bare"
	// HeightBuildable is the next stack of boards over that which leaves room for
	// what lies under trap and pipe.
	HeightBuildable HeightMode = "buildable"
	// HeightSafe is the next stack at which everything fits in 95 of 100 builds.
	HeightSafe HeightMode = "safe"
)

// Base is the raised, level base under the former.
type Base struct {
	Support SupportKind `json:"support"`
	Height  HeightMode  `json:"height"`
	// HeightMM is the height of the base's top above the adhesive bed's top on
	// a floor, or above the deck when let in between joists. Used when the
	// height is chosen.
	HeightMM float64 `json:"heightMM"`
	// MinThicknessMM is the thinnest the base may be.
	MinThicknessMM float64 `json:"minThicknessMM"`
	AdhesiveMM     float64 `json:"adhesiveMM"` // least bed under the base
	// Under are the courses under that bed, from the structure up.
	Under []Course `json:"under,omitempty"`
	// BoardsMM are the thicknesses of board at hand, thinnest first; none where the
	// base comes to any height, as a screed does. Between two boards of a stack lies a
	// bed from BetweenLeastMM to BetweenGreatestMM thick.
	BoardsMM []float64 `json:"boardsMM,omitempty"`
	// Screed tells that the base is laid of mortar.
	Screed            bool    `json:"screed,omitempty"`
	BetweenLeastMM    float64 `json:"betweenLeastMM"`
	BetweenGreatestMM float64 `json:"betweenGreatestMM"`
	// SawMarginMM is left each side of what a channel is cut for.
	SawMarginMM   float64 `json:"sawMarginMM"`
	BoardLengthMM float64 `json:"boardLengthMM"`
	// BoardWidthMM is the width of a board as bought; 0 for the usual 600.
	BoardWidthMM float64 `json:"boardWidthMM,omitempty"`
	// KeepZoneMM is the length in the middle of a board that must not be cut; 0 for
	// none. CutAtStartMM is what is trimmed at the start, absent for equal cuts.
	KeepZoneMM   float64  `json:"keepZoneMM,omitempty"`
	CutAtStartMM *float64 `json:"cutAtStartMM,omitempty"`
	// LedgerWidthMM and LedgerDepthMM are of the ledgers on the joists' flanks that carry
	// boards let in; 0 for the usual 38. NogginSpacingMM is how far apart noggins across
	// the bays are at most; 0 for none.
	LedgerWidthMM   float64 `json:"ledgerWidthMM,omitempty"`
	LedgerDepthMM   float64 `json:"ledgerDepthMM,omitempty"`
	NogginSpacingMM float64 `json:"nogginSpacingMM,omitempty"`
}

// usualBoardWidthMM is how wide boards for a base mostly are. Common practice, no source.
const usualBoardWidthMM = 600

// BoardSize is the size of a board as bought, as stated or usual.
func (b *Base) BoardSize() (lengthMM, widthMM float64) {
	if b.BoardWidthMM > 0 {
		return b.BoardLengthMM, b.BoardWidthMM
	}
	return b.BoardLengthMM, usualBoardWidthMM
}

// FallKind is how the floor falls to the drain.
type FallKind string

// The falls Underfall knows. Back, left, right and front are single falls to a
// linear drain at that side of the shower, as seen standing in it facing the
// back wall; mid is two planes to a linear drain across the middle; point is
// four planes to a point drain; room is a fall of the whole room to a point.
const (
	FallBack  FallKind = "back"
	FallLeft  FallKind = "left"
	FallRight FallKind = "right"
	FallFront FallKind = "front"
	FallMid   FallKind = "mid"
	FallPoint FallKind = "point"
	FallRoom  FallKind = "room"
)

// Linear tells whether the fall goes to a linear drain.
func (k FallKind) Linear() bool { return k != FallPoint && k != FallRoom }

// Sideways tells whether the fall goes to the left or right side, which a drain then runs
// along.
func (k FallKind) Sideways() bool { return k == FallLeft || k == FallRight }

// EndsKind is how the floor lies beyond the ends of a linear drain.
type EndsKind string

// What lies beside a drain that is shorter than its side.
const (
	// EndsLevel leaves the strip beside it level with it.
	EndsLevel EndsKind = "level"
	// EndsFalling lets further planes fall to its ends.
	EndsFalling EndsKind = "falling"
)

// Former is the board or screed that carries the fall.
type Former struct {
	Fall FallKind `json:"fall"`
	// Ends are those of a linear drain. EndSlope is the fall of the planes to them; 0 for
	// that of the main fall.
	Ends     EndsKind `json:"ends"`
	EndSlope float64  `json:"endSlope,omitempty"`
	// Slope is the fall of the plane; of the longest plane for several planes
	// to a point, the others being steeper.
	Slope              float64 `json:"slope"`
	ThicknessAtDrainMM float64 `json:"thicknessAtDrainMM"`
	BedMM              float64 `json:"bedMM"`
	// Mortar tells that it is laid of mortar, not of boards.
	Mortar bool `json:"mortar,omitempty"`
	// LongestMM along the fall and WidestMM across it are the largest size in one
	// piece; 0 for any.
	LongestMM float64 `json:"longestMM,omitempty"`
	WidestMM  float64 `json:"widestMM,omitempty"`
}

// EndsFall tells whether planes fall to the ends of a linear drain.
func (f Former) EndsFall() bool { return f.Fall.Linear() && f.Ends == EndsFalling }

// Turn changes the fall, and that of the ends along with it: the planes keep their places.
func (f *Former) Turn(slope float64) {
	if f.Slope > 0 {
		f.EndSlope *= slope / f.Slope
	}
	f.Slope = slope
}

// Drain is the drain and its trap.
type Drain struct {
	// LengthMM is along a linear drain, 0 for as long as its side; WidthMM across it, and
	// the side of a point drain. SoldLengthsMM are the lengths it is sold in, shortest
	// first; none where it is cut to any.
	LengthMM      float64   `json:"lengthMM"`
	WidthMM       float64   `json:"widthMM"`
	SoldLengthsMM []float64 `json:"soldLengthsMM,omitempty"`
	// WallClearanceMM is from the bare wall to the body of a linear drain.
	WallClearanceMM float64 `json:"wallClearanceMM"`
	// OffsetMM is from the middle of the drain's side to the drain's middle: towards
	// the right, or towards the front for a drain at the left or right side.
	// ForwardMM is from the back wall to the middle of a mid or point drain; absent
	// for halfway.
	OffsetMM  float64  `json:"offsetMM"`
	ForwardMM *float64 `json:"forwardMM,omitempty"`
	// ChannelDepthMM is from the flange down to the underside of the channel.
	ChannelDepthMM float64 `json:"channelDepthMM"`
	// The trap body hangs below: its depth from the flange to its underside, its
	// size in plan, and TrapOffsetMM from the drain's middle to the trap's, the same
	// way along the drain as OffsetMM.
	TrapDepthMM  float64 `json:"trapDepthMM"`
	TrapSizeMM   float64 `json:"trapSizeMM"`
	TrapOffsetMM float64 `json:"trapOffsetMM"`
	// WeirDepthMM is from the flange down to the weir that the water stands at, SealMM
	// from there to the edge of the dip, PassageMM under that edge.
	WeirDepthMM float64 `json:"weirDepthMM"`
	SealMM      float64 `json:"sealMM"`
	PassageMM   float64 `json:"passageMM"`
	// OutletInvertDepthMM is from the flange down to the outlet's invert.
	OutletInvertDepthMM float64 `json:"outletInvertDepthMM"`
	// OutletNominalMM is the size of pipe that goes onto the outlet. Its socket or nut
	// stands OutletJointMM out from the body, OutletJointOutsideMM in diameter.
	OutletNominalMM      float64 `json:"outletNominalMM"`
	OutletJointMM        float64 `json:"outletJointMM"`
	OutletJointOutsideMM float64 `json:"outletJointOutsideMM"`
	// BedUnderMM is the room for bedding left under the trap.
	BedUnderMM float64 `json:"bedUnderMM"`
	// OutletTurnDeg is the way the outlet points, facing the back wall: 0 to
	// the right, 90 to the back wall, 180 to the left, 270 into the room.
	OutletTurnDeg float64 `json:"outletTurnDeg"`
	// CapacityLPS is what the trap carries with CapacityHeadMM of water over
	// the cover, from its data sheet; 0 when it is not known.
	CapacityLPS    float64 `json:"capacityLPS"`
	CapacityHeadMM float64 `json:"capacityHeadMM"`
	// CapacityCurve are further points of the data sheet, if it has any.
	CapacityCurve []part.HeadFlow `json:"capacityCurve,omitempty"`
	// The cover's top can be set between these heights above the flange.
	CoverLeastMM    float64 `json:"coverLeastMM"`
	CoverGreatestMM float64 `json:"coverGreatestMM"`
	// LeastFormerMM is the least former the flange needs under it.
	LeastFormerMM float64 `json:"leastFormerMM"`
}

// ExitKind is where the waste leaves.
type ExitKind string

// The kinds of exit.
const (
	ExitWall  ExitKind = "wall"  // through a wall
	ExitFloor ExitKind = "floor" // drops through the floor
	ExitPipe  ExitKind = "pipe"  // the end of an existing pipe
	ExitStack ExitKind = "stack" // into the side of a stack
	ExitPump  ExitKind = "pump"  // into a pump
)

// Waste is the waste run from the trap's outlet to the exit.
type Waste struct {
	part.Pipe
	// ClearUnderMM is the room left under pipe and sockets.
	ClearUnderMM float64 `json:"clearUnderMM"`
	// HoleRoomMM is left all round the pipe in the hole through a wall or slab.
	HoleRoomMM float64 `json:"holeRoomMM"`
	// Gradient is the fall of the pipe; used unless the exit's level is given
	// exactly, for the fall then follows from it.
	Gradient float64 `json:"gradient"`
	// Waypoints are the turns of the run in plan; empty for the simplest run.
	Waypoints []plan.Point `json:"waypoints,omitempty"`
	Exit      Exit         `json:"exit"`
	Fittings  []Fitting    `json:"fittings,omitempty"`
	// Vent joins the run; nil for a run without one.
	Vent *Vent `json:"vent,omitempty"`
	// Beyond is how the waste goes on outside the wall that it leaves through; nil when
	// that is not known.
	Beyond *Beyond `json:"beyond,omitempty"`
	// Drill is what drills the hole through a wall; nil when that is not known.
	Drill *Drill `json:"drill,omitempty"`
	// Boxing is over what of the pipe lies bare along the room; nil for none.
	Boxing *Boxing `json:"boxing,omitempty"`
	// Pump is what lifts the waste where it leaves into one; nil where nothing is known of
	// it.
	Pump *Pump `json:"pump,omitempty"`
}

// Exit is the place where the run ends.
type Exit struct {
	Kind ExitKind `json:"kind"`
	// Wall and OffsetMM place an exit through a wall: from the wall's start corner
	// to the pipe's centre.
	Wall     int     `json:"wall,omitempty"`
	OffsetMM float64 `json:"offsetMM,omitempty"`
	// Stack is the index of the stack that an exit into one joins.
	Stack int `json:"stack,omitempty"`
	// At places an exit through the floor, an existing pipe end or a pump's inlet.
	At plan.Point `json:"at,omitempty"`
	// Level is what is known of the level of the exit's invert.
	Level ExitLevel `json:"level"`
	// NominalMM is the size of an existing pipe; 0 when it is not known.
	NominalMM float64 `json:"nominalMM,omitempty"`
}

// FittingKind is an in-line fitting on the run.
type FittingKind string

// The in-line fittings.
const (
	FittingReducer      FittingKind = "reducer"       // flush-invert: the bottoms of both pipes are level
	FittingAdaptor      FittingKind = "adaptor"       // to pipe of another system
	FittingFallingPiece FittingKind = "falling-piece" // a length with a fall of its own
)

// Fitting is an in-line fitting at a distance along the run from the outlet. One that is
// stated within the outlet's joint stands at the joint's end.
type Fitting struct {
	Kind     FittingKind `json:"kind"`
	AtMM     float64     `json:"atMM"`
	LengthMM float64     `json:"lengthMM"`
	// Reversed is the wrong way round: a reducer or adaptor then makes a step in the
	// invert, a falling piece rises.
	Reversed bool `json:"reversed,omitempty"`
	// The pipe after a reducer or adaptor.
	part.Pipe
	// Slope of a falling piece.
	Slope float64 `json:"slope,omitempty"`
}

// ReducerLengthMM is the length of a usual reducer. Common practice, no source.
const ReducerLengthMM = 60

// LargerPipe is the next larger pipe of the chosen system, or a usual one of 50 mm where
// none is chosen; ok is false where there is none.
func (j *Job) LargerPipe() (p part.Pipe, ok bool) {
	p = j.Waste.Pipe
	if j.Parts.Pipe == nil {
		const usualMM = 50
		p.NominalMM, p.OutsideDiameterMM, p.BoreMM, p.SocketOutsideMM = usualMM, 50, 46, 50+2*p.SocketMM() // common practice, no source
		return p, j.Waste.NominalMM < usualMM
	}
	for _, z := range j.Parts.Pipe.Sizes {
		if z.NominalMM > j.Waste.NominalMM {
			return z.Pipe, true
		}
	}
	return p, false
}

// ReducerAt is a reducer to the next larger pipe of the chosen system that it has one
// to, or to the usual larger pipe where none is chosen; ok is false where there is none.
func (j *Job) ReducerAt(atMM float64) (f Fitting, ok bool) {
	f = Fitting{Kind: FittingReducer, AtMM: atMM, LengthMM: ReducerLengthMM}
	system := j.Parts.Pipe
	if system == nil {
		f.Pipe, ok = j.LargerPipe()
		return f, ok
	}
	for _, r := range system.Reducers {
		to, sold := system.Size(r.ToMM)
		if sold && r.FromMM == j.Waste.NominalMM && r.ToMM > r.FromMM && (!ok || r.ToMM < f.NominalMM) {
			f.Pipe, f.LengthMM, ok = to.Pipe, r.LengthMM, true
		}
	}
	return f, ok
}

// UsualFallingPiece is a length with a fall of 3°. Common practice, no source.
func UsualFallingPiece(atMM float64) Fitting {
	return Fitting{Kind: FittingFallingPiece, AtMM: atMM, LengthMM: 120, Slope: math.Tan(3 * math.Pi / 180)}
}

// Layer is one layer of a build-up with the spread it is laid to.
type Layer struct {
	ThicknessMM float64 `json:"thicknessMM"`
	ToleranceMM float64 `json:"toleranceMM"`
}

// Finish is the layers over a floor or on a wall, and the tile.
type Finish struct {
	// Under are the courses under the tanking, the lowest first: on the former, on the
	// room's structural floor, on the bare wall.
	Under   []Course `json:"under,omitempty"`
	Tanking Layer    `json:"tanking"`
	Bed     Layer    `json:"bed"`
	Tile    Layer    `json:"tile"`
	// Tile face and joint.
	TileLengthMM float64 `json:"tileLengthMM"`
	TileWidthMM  float64 `json:"tileWidthMM"`
	JointMM      float64 `json:"jointMM"`
	Colour       string  `json:"colour"` // #rrggbb
	// How it looks.
	Bond        Bond    `json:"bond"`
	Surface     Surface `json:"surface"`
	Sheen       Sheen   `json:"sheen"`
	GroutColour string  `json:"groutColour,omitempty"` // #rrggbb; empty for grey
}

// Bond is the way tiles are laid.
type Bond string

// The bonds. Hexagons are as wide across their flats as the tile is long.
const (
	BondStack       Bond = "stack"
	BondHalf        Bond = "half"
	BondThird       Bond = "third"
	BondHerringbone Bond = "herringbone"
	BondHexagon     Bond = "hexagon"
)

// Surface is what a tile is made of, to look at.
type Surface string

// The surfaces.
const (
	SurfacePlain    Surface = "plain"
	SurfaceStone    Surface = "stone"
	SurfaceTerrazzo Surface = "terrazzo"
)

// Sheen is how a tile shines.
type Sheen string

// The sheens.
const (
	SheenSatin Sheen = "satin"
	SheenMatt  Sheen = "matt"
	SheenGloss Sheen = "gloss"
)

// Style is what the customer sees beside the tile.
type Style struct {
	// Metal is the colour of cover, trim and fittings.
	Metal MetalKind `json:"metal"`
	// Cover is the kind of the drain's cover.
	Cover CoverKind `json:"cover"`
}

// MetalKind is the finish of metal.
type MetalKind string

// The metals.
const (
	MetalSteel  MetalKind = "steel"
	MetalChrome MetalKind = "chrome"
	MetalBrass  MetalKind = "brass"
	MetalBlack  MetalKind = "black"
)

// CoverKind is what the water goes through.
type CoverKind string

// The covers: slotted metal, or a tray with the floor's tile and a gap round it.
const (
	CoverSlotted    CoverKind = "slotted"
	CoverTileInsert CoverKind = "tile-insert"
)

// ThicknessMM of all the finish's layers.
func (f Finish) ThicknessMM() float64 {
	return f.UnderMM() + f.Tanking.ThicknessMM + f.Bed.ThicknessMM + f.Tile.ThicknessMM
}

// Layers are the finishes.
type Layers struct {
	Shower Finish `json:"shower"`
	Room   Finish `json:"room"`
	Wall   Finish `json:"wall"`
	// WallTiledToMM is how high the shower's walls are finished, above the tile at the
	// drain; no higher than the room.
	WallTiledToMM float64  `json:"wallTiledToMM"`
	Tanking       *Tanking `json:"tanking,omitempty"`
	Joints        *Joints  `json:"joints,omitempty"`
	Heating       *Heating `json:"heating,omitempty"`
}

// UsualHeadMM is the depth of water over the cover at which traps are tested,
// and that is taken as the most: EN 1253-1, for showers; from memory.
const UsualHeadMM = 20

// Water is what the shower delivers.
type Water struct {
	ShowerFlowsLPS []float64 `json:"showerFlowsLPS"` // of outlets that can run together
	// OtherDU are the discharge units, l/s, of other appliances that run into the shower's
	// waste; 0 for none.
	OtherDU float64 `json:"otherDU,omitempty"`
	// LargestDU is the largest of them.
	LargestDU float64 `json:"largestDU,omitempty"`
}

// frequencyOfUse is how often appliances of a dwelling run together: K of EN 12056-2:2000,
// Table 3.
const frequencyOfUse = 0.5

// RunLPS is the flow that the waste has to carry: the shower's, or, with other appliances,
// what all of them give together where that is more. The shower's discharge unit is its own
// flow.
//
// Method: Q = K·√ΣDU, or the flow of the largest if that is more. Source: EN 12056-2:2000,
// 6.3.1 and 6.3.4.
func (w Water) RunLPS() float64 {
	shower := w.TotalLPS()
	if w.OtherDU <= 0 {
		return shower
	}
	return math.Max(math.Max(shower, w.LargestDU), frequencyOfUse*math.Sqrt(shower+w.OtherDU))
}

// ShowerLPS is the most of the shower's flow with which the waste has no more to carry than
// the given flow.
func (w Water) ShowerLPS(carriedLPS float64) float64 {
	if w.OtherDU <= 0 {
		return carriedLPS
	}
	if w.LargestDU > carriedLPS {
		return 0
	}
	all := carriedLPS / frequencyOfUse
	return math.Max(0, math.Min(carriedLPS, all*all-w.OtherDU))
}

// TotalLPS is the flow of all outlets together.
func (w Water) TotalLPS() float64 {
	sum := 0.0
	for _, f := range w.ShowerFlowsLPS {
		sum += f
	}
	return sum
}

// Tolerances are how far what is measured and built may be off, beside the
// layers and spot levels that carry their own: plus or minus, mm, held by 95 of
// 100.
type Tolerances struct {
	// FloorMM is of a structural floor without spot levels.
	FloorMM   float64 `json:"floorMM"`
	BaseMM    float64 `json:"baseMM"`    // height of the base's top as set
	BedMM     float64 `json:"bedMM"`     // bed under the former
	FormerMM  float64 `json:"formerMM"`  // former at the drain
	FallMM    float64 `json:"fallMM"`    // former over the whole of its fall
	OutletMM  float64 `json:"outletMM"`  // outlet below the flange
	TrapMM    float64 `json:"trapMM"`    // depth of the trap
	PipeMM    float64 `json:"pipeMM"`    // invert at the exit as laid, or over a metre
	ExitMM    float64 `json:"exitMM"`    // level of a stated exit as measured
	DoorwayMM float64 `json:"doorwayMM"` // finished floors beyond doorways
	GroundMM  float64 `json:"groundMM"`  // ground outside
	// SetUpMM is the part of readings' tolerances that all readings of one set-up of the laser
	// have in common: its line and its datum. 0 where each is off by itself.
	SetUpMM float64 `json:"setUpMM,omitempty"`
}

// UsualTolerances are those of careful work with a line laser. Common practice,
// no source.
func UsualTolerances() Tolerances {
	return Tolerances{FloorMM: 3, BaseMM: 1, BedMM: 1, FormerMM: 1, FallMM: 2, OutletMM: 1, TrapMM: 1, PipeMM: 3, ExitMM: 2, DoorwayMM: 1, GroundMM: 20}
}

// AsBuilt are levels measured while the work goes on, above the datum; absent
// until measured. Each takes the place of what was planned.
type AsBuilt struct {
	BaseTopMM       *float64 `json:"baseTopMM,omitempty"`
	OutletInvertMM  *float64 `json:"outletInvertMM,omitempty"`
	ExitInvertMM    *float64 `json:"exitInvertMM,omitempty"`
	FormerAtDrainMM *float64 `json:"formerAtDrainMM,omitempty"`
	FormerAtEdgeMM  *float64 `json:"formerAtEdgeMM,omitempty"` // at the high end of its longest fall
	TileAtDrainMM   *float64 `json:"tileAtDrainMM,omitempty"`
}

// Any tells whether anything has been measured.
func (a AsBuilt) Any() bool { return a != AsBuilt{} }

// BuiltLevel is one level measured as built: the name of its field in a file,
// the id of what it is a level of, and where it is kept.
type BuiltLevel struct {
	Field string
	Label message.ID
	MM    **float64
}

// BuiltKey is the key of the input of a level measured as built, by its field.
func BuiltKey(field string) string { return "asBuilt." + field }

// Message says which level it is, and that it is as built.
func (l BuiltLevel) Message() message.Message {
	return message.Of("place.as-built-level", message.In("level", message.Of(l.Label)))
}

// Levels are all the levels that can be measured, in the order of the work.
func (a *AsBuilt) Levels() []BuiltLevel {
	return []BuiltLevel{
		{"baseTopMM", "parameter.asBuilt.baseTopMM", &a.BaseTopMM},
		{"outletInvertMM", "parameter.asBuilt.outletInvertMM", &a.OutletInvertMM},
		{"exitInvertMM", "parameter.asBuilt.exitInvertMM", &a.ExitInvertMM},
		{"formerAtDrainMM", "parameter.asBuilt.formerAtDrainMM", &a.FormerAtDrainMM},
		{"formerAtEdgeMM", "parameter.asBuilt.formerAtEdgeMM", &a.FormerAtEdgeMM},
		{"tileAtDrainMM", "parameter.asBuilt.tileAtDrainMM", &a.TileAtDrainMM},
	}
}

// Clone is a copy that shares nothing with the job but the copies of parts, which
// nothing ever changes.
func (j Job) Clone() Job {
	j.Room.Outline = append([]plan.Point(nil), j.Room.Outline...)
	j.Room.Tape.Drawn = append([]plan.Point(nil), j.Room.Tape.Drawn...)
	j.Room.Tape.Lengths = append([]Taped(nil), j.Room.Tape.Lengths...)
	j.Room.Tape.Angles = append([]TapedAngle(nil), j.Room.Tape.Angles...)
	j.Room.Walls = append([]Wall(nil), j.Room.Walls...)
	for i := range j.Room.Walls {
		w := &j.Room.Walls[i]
		w.OutsideGroundMM, w.DampCourseMM = clonePointer(w.OutsideGroundMM), clonePointer(w.DampCourseMM)
	}
	j.Room.Doorways = append([]Doorway(nil), j.Room.Doorways...)
	j.Room.Windows = append([]Window(nil), j.Room.Windows...)
	j.Room.Fixtures = append([]Fixture(nil), j.Room.Fixtures...)
	j.Room.Slopes = append([]Slope(nil), j.Room.Slopes...)
	j.Room.North = clonePointer(j.Room.North)
	j.Room.PipeEnds = append([]PipeEnd(nil), j.Room.PipeEnds...)
	for i := range j.Room.PipeEnds {
		j.Room.PipeEnds[i].InvertMM = clonePointer(j.Room.PipeEnds[i].InvertMM)
	}
	j.Room.Stacks = append([]Stack(nil), j.Room.Stacks...)
	for i := range j.Room.Stacks {
		s := &j.Room.Stacks[i]
		s.FootInvertMM, s.OpposedMM = clonePointer(s.FootInvertMM), clonePointer(s.OpposedMM)
	}
	j.Floor.Joists.SupportsMM = append([]float64(nil), j.Floor.Joists.SupportsMM...)
	j.Floor.Joists.Trims = append([]Trim(nil), j.Floor.Joists.Trims...)
	j.SpotLevels = append([]SpotLevel(nil), j.SpotLevels...)
	j.Laser.SetUps = append([]SetUp(nil), j.Laser.SetUps...)
	for i := range j.Laser.SetUps {
		j.Laser.SetUps[i].LevelMM = clonePointer(j.Laser.SetUps[i].LevelMM)
	}
	j.Laser.Readings = append([]Reading(nil), j.Laser.Readings...)
	j.Shower.Screens = append([]Screen(nil), j.Shower.Screens...)
	j.Shower.Head, j.Shower.Kerb = clonePointer(j.Shower.Head), clonePointer(j.Shower.Kerb)
	j.Base.CutAtStartMM = clonePointer(j.Base.CutAtStartMM)
	j.Drain.ForwardMM = clonePointer(j.Drain.ForwardMM)
	j.Drain.SoldLengthsMM = append([]float64(nil), j.Drain.SoldLengthsMM...)
	j.Waste.Waypoints = append([]plan.Point(nil), j.Waste.Waypoints...)
	j.Waste.Fittings = append([]Fitting(nil), j.Waste.Fittings...)
	j.Waste.Vent, j.Waste.Beyond, j.Waste.Drill = clonePointer(j.Waste.Vent), clonePointer(j.Waste.Beyond), clonePointer(j.Waste.Drill)
	j.Waste.Boxing = clonePointer(j.Waste.Boxing)
	if j.Waste.Pump = clonePointer(j.Waste.Pump); j.Waste.Pump != nil {
		j.Waste.Pump.DischargeMM = clonePointer(j.Waste.Pump.DischargeMM)
	}
	if b := j.Waste.Beyond; b != nil {
		b.GratingMM, b.WaterMM, b.DownToMM = clonePointer(b.GratingMM), clonePointer(b.WaterMM), clonePointer(b.DownToMM)
	}
	j.Water.ShowerFlowsLPS = append([]float64(nil), j.Water.ShowerFlowsLPS...)
	j.Drain.CapacityCurve = append([]part.HeadFlow(nil), j.Drain.CapacityCurve...)
	j.Base.BoardsMM = append([]float64(nil), j.Base.BoardsMM...)
	j.Floor.Existing = append([]Existing(nil), j.Floor.Existing...)
	if j.Layers.Tanking = clonePointer(j.Layers.Tanking); j.Layers.Tanking != nil {
		j.Layers.Tanking.BeyondMM = clonePointer(j.Layers.Tanking.BeyondMM)
	}
	j.Standings = maps.Clone(j.Standings)
	if j.Picture = clonePointer(j.Picture); j.Picture != nil {
		j.Picture.Things = slices.Clone(j.Picture.Things)
	}
	j.Layers.Joints, j.Layers.Heating = clonePointer(j.Layers.Joints), clonePointer(j.Layers.Heating)
	for _, under := range j.Courses() {
		*under = append([]Course(nil), *under...)
	}
	for _, m := range j.AsBuilt.Levels() {
		*m.MM = clonePointer(*m.MM)
	}
	return j
}

func clonePointer[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// New is an invented starting job before any part is chosen for it: a small
// rectangular room with a slab floor and the waste out through the left wall. Sizes are
// common practice, no source.
func New() Job {
	ground := -150.0
	return Job{
		Version: Version, Name: "New shower", Region: "UK", Units: unit.Metric,
		Room: Room{
			Outline: []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}},
			Walls: []Wall{
				{Kind: WallStud, ThicknessMM: 100, StudSpacingMM: 400, FirstStudMM: 200, StudWidthMM: 47},
				{Kind: WallStud, ThicknessMM: 100, StudSpacingMM: 400, FirstStudMM: 200, StudWidthMM: 47},
				{Kind: WallMasonry, ThicknessMM: 215},
				{Kind: WallMasonry, ThicknessMM: 215, OutsideGroundMM: &ground},
			},
			Doorways: []Doorway{{Wall: 0, OffsetMM: 1500, WidthMM: 760, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: LeafOut, LeafGapMM: 8}},
			HeightMM: 2400, Edge: EdgeStep, RampRunMM: 600,
		},
		Floor: Floor{Kind: FloorSlab, SlabThicknessMM: 150, Deck: Deck{22},
			Joists: Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 400, FirstOffsetMM: 200, Timber: usualTimber()}},
		Shower: Shower{Wall: 2, OffsetMM: 1000, WidthMM: 1400, DepthMM: 900, Screens: []Screen{
			{Kind: ScreenPane, Side: SideRight, OffsetMM: 13, WidthMM: 842, HeightMM: screenHeightMM,
				ThicknessMM: screenThicknessMM, GapMM: screenGapMM}}},
		Base: Base{Support: OnFloor, Height: HeightBare, HeightMM: 100, MinThicknessMM: 20, AdhesiveMM: 3,
			BetweenLeastMM: 2, BetweenGreatestMM: 4, SawMarginMM: 10, BoardLengthMM: 1500},
		Former: Former{Fall: FallBack, Ends: EndsKinds().Usual, Slope: 1.0 / 50, ThicknessAtDrainMM: 20, BedMM: 3},
		Drain: Drain{LengthMM: 800, WidthMM: 70, WallClearanceMM: 13, ChannelDepthMM: 25, TrapDepthMM: 95,
			TrapSizeMM: 110, WeirDepthMM: 32, SealMM: 50, PassageMM: 10, OutletInvertDepthMM: 75, OutletNominalMM: 50, OutletJointOutsideMM: 57,
			OutletTurnDeg: 180, CapacityLPS: 0.6, CapacityHeadMM: UsualHeadMM,
			CoverLeastMM: 8, CoverGreatestMM: 25, LeastFormerMM: 15},
		Waste: Waste{Pipe: part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, InsertionMM: 20,
			Bend45FaceMM: 25, Bend90FaceMM: 45},
			HoleRoomMM: 8, Gradient: 1.0 / 40, Exit: Exit{Kind: ExitWall, Wall: 3, OffsetMM: 68}},
		Layers: Layers{
			Shower: Finish{Tanking: Layer{1, 0.3}, Bed: Layer{3, 1}, Tile: Layer{9, 0.5},
				TileLengthMM: 200, TileWidthMM: 200, JointMM: 3, Colour: "#5d7673", Bond: BondStack, Surface: SurfacePlain, Sheen: SheenSatin},
			Room: Finish{Tanking: Layer{1, 0.3}, Bed: Layer{3, 1}, Tile: Layer{9, 0.5},
				TileLengthMM: 600, TileWidthMM: 600, JointMM: 3, Colour: "#b7a996", Bond: BondStack, Surface: SurfacePlain, Sheen: SheenSatin},
			Wall: Finish{Tanking: Layer{1, 0.3}, Bed: Layer{3, 1}, Tile: Layer{9, 0.5},
				TileLengthMM: 600, TileWidthMM: 300, JointMM: 2, Colour: "#e4ded4", Bond: BondStack, Surface: SurfacePlain, Sheen: SheenSatin},

			WallTiledToMM: 2200,
		},
		Water:      Water{ShowerFlowsLPS: []float64{0.2}},
		Tolerances: UsualTolerances(),
		Style:      Style{Metal: MetalKinds().Usual, Cover: CoverKinds().Usual},
	}
}

// NewInInches is the starting job where people build in feet and inches: the same floor in
// sizes that are round there, over joists of 2 × 8 and studs of 2 × 4 at 16 in. Common
// practice, no source.
func NewInInches() Job {
	const inch = 25.4
	j := New()
	j.Units = unit.Imperial
	j.Room.Outline = []plan.Point{{0, 0}, {96 * inch, 0}, {96 * inch, 75 * inch}, {0, 75 * inch}}
	for i := range j.Room.Walls {
		w := &j.Room.Walls[i]
		if w.Kind == WallMasonry {
			w.ThicknessMM = 8 * inch
			continue
		}
		w.ThicknessMM, w.StudSpacingMM, w.FirstStudMM, w.StudWidthMM = 4.5*inch, 16*inch, 8*inch, 1.5*inch
	}
	ground := -6 * inch
	j.Room.Walls[3].OutsideGroundMM = &ground
	j.Room.Doorways = []Doorway{{Wall: 0, OffsetMM: 60 * inch, WidthMM: 30 * inch, HeightMM: 80 * inch, NeighbourFFLMM: 0.75 * inch,
		Leaf: LeafOut, LeafGapMM: 0.375 * inch}}
	j.Room.HeightMM, j.Room.RampRunMM = 96*inch, 24*inch
	j.Floor.SlabThicknessMM, j.Floor.Deck.ThicknessMM = 4*inch, 0.75*inch
	j.Floor.Joists.WidthMM, j.Floor.Joists.DepthMM = 1.5*inch, 7.25*inch
	j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 16*inch, 8*inch
	pane := j.Shower.Screens[0]
	pane.OffsetMM, pane.WidthMM = 0.5*inch, 33*inch
	j.Shower = Shower{Wall: 2, OffsetMM: 36 * inch, WidthMM: 60 * inch, DepthMM: 36 * inch, Screens: []Screen{pane}}
	j.Base.HeightMM, j.Base.MinThicknessMM = 4*inch, 0.75*inch
	j.Former.Slope = 1.0 / 48
	j.Drain.LengthMM, j.Drain.WallClearanceMM = 32*inch, 0.5*inch
	const trapHalfMM = 2.25 * inch
	j.Drain.TrapSizeMM, j.Waste.Gradient = 2*trapHalfMM, 1.0/48
	j.Waste.Exit.OffsetMM = j.Drain.WallClearanceMM + trapHalfMM // straight out
	j.Waste.HoleRoomMM = 0.25 * inch
	j.Layers.WallTiledToMM = 84 * inch
	const gallonsAMinuteLPS = 3.785411784 / 60
	j.Water.ShowerFlowsLPS = []float64{2.5 * gallonsAMinuteLPS}
	return j
}

// AngleDeg brings an angle to 0 ≤ a < 360.
func AngleDeg(a float64) float64 {
	a = math.Mod(a, 360)
	if a < 0 {
		a += 360
	}
	return a
}
