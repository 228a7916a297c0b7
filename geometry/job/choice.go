package job

import (
	"fmt"
	"strings"

	"underfall/geometry/unit"
)

// Choice is one value of an Enum and its word on screen.
type Choice[T ~string] struct {
	Value T
	Word  string
}

// Enum is a closed list of values. The one list feeds the check of a job, the
// schema of its file, the fields of the window and the messages.
type Enum[T ~string] struct {
	// Usual is the value taken where none is stated.
	Usual   T
	Choices []Choice[T]
}

// Has tells whether a value is one of the list.
func (e Enum[T]) Has(v T) bool {
	for _, c := range e.Choices {
		if c.Value == v {
			return true
		}
	}
	return false
}

// Values are the values as they stand in a file, in the order they are shown.
func (e Enum[T]) Values() []string {
	out := make([]string, len(e.Choices))
	for i, c := range e.Choices {
		out[i] = string(c.Value)
	}
	return out
}

// OrUsual is a value, or the usual one where it is empty.
func (e Enum[T]) OrUsual(v T) T {
	if v == "" {
		return e.Usual
	}
	return v
}

// unknown says that a value is not of the list, and what is.
func (e Enum[T]) unknown(v T) string {
	return fmt.Sprintf("“%s” is not known; use %s", v, strings.Join(e.Values(), ", "))
}

// EdgeKinds are the ways an open edge meets the room.
func EdgeKinds() Enum[EdgeKind] {
	return Enum[EdgeKind]{EdgeStep, []Choice[EdgeKind]{{EdgeStep, "Step"}, {EdgeRamp, "Ramp"}, {EdgeRaiseRoom, "Raise the whole room"}}}
}

// WallKinds are what walls are made of.
func WallKinds() Enum[WallKind] {
	return Enum[WallKind]{WallMasonry, []Choice[WallKind]{{WallMasonry, "Masonry"}, {WallCavity, "Cavity"}, {WallStud, "Stud"}}}
}

// LeafSwings are the ways a door leaf opens.
func LeafSwings() Enum[LeafSwing] {
	return Enum[LeafSwing]{LeafOut, []Choice[LeafSwing]{{LeafNone, "No leaf"}, {LeafIn, "Into this room"}, {LeafOut, "Outwards"}}}
}

// FloorKinds are the kinds of structural floor.
func FloorKinds() Enum[FloorKind] {
	return Enum[FloorKind]{FloorSlab, []Choice[FloorKind]{{FloorSlab, "Concrete slab"}, {FloorTimber, "Timber joists"}}}
}

// SupportKinds are what the base can stand on.
func SupportKinds() Enum[SupportKind] {
	return Enum[SupportKind]{OnFloor, []Choice[SupportKind]{{OnFloor, "On the floor"}, {BetweenJoists, "Let in between joists"}}}
}

// HeightModes are what can set the height of the base.
func HeightModes() Enum[HeightMode] {
	return Enum[HeightMode]{HeightLowest, []Choice[HeightMode]{{HeightLowest, "Lowest that works"}, {HeightChosen, "Chosen"}}}
}

// FallKinds are the falls to a drain.
func FallKinds() Enum[FallKind] {
	return Enum[FallKind]{FallBack, []Choice[FallKind]{{FallBack, "Back wall drain"}, {FallLeft, "Left wall drain"}, {FallRight, "Right wall drain"},
		{FallFront, "Drain at open edge"}, {FallMid, "Drain across the middle"}, {FallPoint, "Point drain"}, {FallRoom, "Whole room to point"}}}
}

// ExitKinds are the places where the waste can leave.
func ExitKinds() Enum[ExitKind] {
	return Enum[ExitKind]{ExitWall, []Choice[ExitKind]{{ExitWall, "Through a wall"}, {ExitFloor, "Through the floor"}, {ExitPipe, "Existing pipe end"}}}
}

// ExitLevelKinds are what can be known of the exit's level.
func ExitLevelKinds() Enum[ExitLevelKind] {
	return Enum[ExitLevelKind]{ExitFree, []Choice[ExitLevelKind]{{ExitFree, "Free"}, {ExitNotBelow, "Not lower than"}, {ExitExactly, "At exactly"}}}
}

// FittingKinds are the in-line fittings.
func FittingKinds() Enum[FittingKind] {
	return Enum[FittingKind]{FittingReducer, []Choice[FittingKind]{{FittingReducer, "Reducer"}, {FittingExtender, "Extender"}}}
}

// Bonds are the ways tiles are laid.
func Bonds() Enum[Bond] {
	return Enum[Bond]{BondStack, []Choice[Bond]{{BondStack, "Straight joints"}, {BondHalf, "Half offset"}, {BondThird, "Third offset"}, {BondHerringbone, "Herringbone"}, {BondHexagon, "Hexagons"}}}
}

// Surfaces are what tiles are made of, to look at.
func Surfaces() Enum[Surface] {
	return Enum[Surface]{SurfacePlain, []Choice[Surface]{{SurfacePlain, "Plain"}, {SurfaceStone, "Stone"}, {SurfaceTerrazzo, "Terrazzo"}}}
}

// Sheens are how tiles shine.
func Sheens() Enum[Sheen] {
	return Enum[Sheen]{SheenSatin, []Choice[Sheen]{{SheenMatt, "Matt"}, {SheenSatin, "Satin"}, {SheenGloss, "Gloss"}}}
}

// MetalKinds are the finishes of metal.
func MetalKinds() Enum[MetalKind] {
	return Enum[MetalKind]{MetalSteel, []Choice[MetalKind]{{MetalSteel, "Brushed steel"}, {MetalChrome, "Chrome"}, {MetalBrass, "Brass"}, {MetalBlack, "Black"}}}
}

// CoverKinds are the covers of a drain.
func CoverKinds() Enum[CoverKind] {
	return Enum[CoverKind]{CoverSlotted, []Choice[CoverKind]{{CoverSlotted, "Slotted metal"}, {CoverTileInsert, "With the floor's tile"}}}
}

// UnitSystems are the systems of units a job can be shown in.
func UnitSystems() Enum[unit.System] {
	return Enum[unit.System]{unit.Metric, []Choice[unit.System]{{unit.Metric, "Millimetres"}, {unit.Imperial, "Inches"}}}
}

// checkEnum notes a problem when a value is not of its list.
func checkEnum[T ~string](v *validator, path string, value T, e Enum[T]) {
	if !e.Has(value) {
		v.add(path, "%s", e.unknown(value))
	}
}
