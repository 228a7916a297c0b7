package job

import (
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Choice is one value of an Enum.
type Choice[T ~string] struct {
	Value T
	list  string
}

// Word is the id of the value's word on screen.
func (c Choice[T]) Word() message.ID { return message.ID("choice." + c.list + "." + string(c.Value)) }

// Enum is a closed list of values. The one list feeds the check of a job, the
// schema of its file, the fields of the window and the messages.
type Enum[T ~string] struct {
	// Usual is the value taken where none is stated.
	Usual   T
	Choices []Choice[T]
}

// enum is the list of some values; its name is part of their words' ids.
func enum[T ~string](name string, usual T, values ...T) Enum[T] {
	e := Enum[T]{usual, make([]Choice[T], len(values))}
	for i, v := range values {
		e.Choices[i] = Choice[T]{v, name}
	}
	return e
}

// words are the ids of the values' words.
func (e Enum[T]) words() []message.ID {
	out := make([]message.ID, len(e.Choices))
	for i, c := range e.Choices {
		out[i] = c.Word()
	}
	return out
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
func (e Enum[T]) unknown(v T) message.Message { return unknownChoice(string(v), e.words()) }

// unknownChoice says that a value is not of a list, and the words of those that are.
func unknownChoice(value string, words []message.ID) message.Message {
	use := message.List{Or: true}
	for _, w := range words {
		use.Items = append(use.Items, message.Of(w))
	}
	return message.Of("problem.unknown-choice", message.Name("value", value), message.Arg{Name: "choices", Value: use})
}

// EdgeKinds are the ways an open edge meets the room.
func EdgeKinds() Enum[EdgeKind] {
	return enum("edge", EdgeStep, EdgeStep, EdgeRamp, EdgeRaiseRoom)
}

// WallKinds are what walls are made of.
func WallKinds() Enum[WallKind] {
	return enum("wall", WallMasonry, WallMasonry, WallCavity, WallStud)
}

// LeafSwings are the ways a door leaf opens.
func LeafSwings() Enum[LeafSwing] {
	return enum("leaf", LeafOut, LeafNone, LeafIn, LeafOut, LeafSlide, LeafPocket)
}

// FloorKinds are the kinds of structural floor.
func FloorKinds() Enum[FloorKind] {
	return enum("floor", FloorSlab, FloorSlab, FloorTimber)
}

// SupportKinds are what the base can stand on.
func SupportKinds() Enum[SupportKind] {
	return enum("support", OnFloor, OnFloor, BetweenJoists)
}

// HeightModes are what can set the height of the base.
func HeightModes() Enum[HeightMode] {
	return enum("height", HeightSafe, HeightSafe, HeightBuildable, HeightBare, HeightChosen)
}

// FallKinds are the falls to a drain.
func FallKinds() Enum[FallKind] {
	return enum("fall", FallBack, FallBack, FallLeft, FallRight, FallFront, FallMid, FallPoint, FallRoom)
}

// ShowerSides are the sides of the shower, in the order of its corners.
func ShowerSides() Enum[ShowerSide] {
	return enum("side", SideFront, SideBack, SideRight, SideFront, SideLeft)
}

// ScreenKinds are how screens open.
func ScreenKinds() Enum[ScreenKind] {
	return enum("screen", ScreenPane, ScreenPane, ScreenPanel, ScreenDoor, ScreenSlide)
}

// EndsKinds are how the floor lies beyond the ends of a linear drain.
func EndsKinds() Enum[EndsKind] {
	return enum("ends", EndsLevel, EndsLevel, EndsFalling)
}

// ExitKinds are the places where the waste can leave.
func ExitKinds() Enum[ExitKind] {
	return enum("exit", ExitWall, ExitWall, ExitFloor, ExitPipe, ExitStack, ExitPump)
}

// DrillsFrom are the sides that a hole can be drilled from.
func DrillsFrom() Enum[DrillFrom] {
	return enum("drill-from", DrillInside, DrillInside, DrillOutside)
}

// FixtureKinds are what stands or hangs in the room.
func FixtureKinds() Enum[FixtureKind] {
	return enum("fixture", FixtureBasin, FixtureBasin, FixtureToilet, FixtureRadiator, FixtureCupboard)
}

// Word is what it is called.
func (k FixtureKind) Word() message.ID {
	id, _ := FixtureKinds().wordOf(k) // a job has no other
	return id
}

// JoinKinds are what the waste can join outside.
func JoinKinds() Enum[JoinKind] { return enum("join", JoinGully, JoinGully, JoinStack, JoinDrain) }

// ExitLevelKinds are what can be known of the exit's level.
func ExitLevelKinds() Enum[ExitLevelKind] {
	return enum("exit-level", ExitFree, ExitFree, ExitNotBelow, ExitExactly)
}

// FittingKinds are the in-line fittings.
func FittingKinds() Enum[FittingKind] {
	return enum("fitting", FittingReducer, FittingReducer, FittingAdaptor, FittingFallingPiece)
}

// Bonds are the ways tiles are laid.
func Bonds() Enum[Bond] {
	return enum("bond", BondStack, BondStack, BondHalf, BondThird, BondHerringbone, BondHexagon)
}

// Surfaces are what tiles are made of, to look at.
func Surfaces() Enum[Surface] {
	return enum("surface", SurfacePlain, SurfacePlain, SurfaceStone, SurfaceTerrazzo)
}

// Sheens are how tiles shine.
func Sheens() Enum[Sheen] {
	return enum("sheen", SheenSatin, SheenMatt, SheenSatin, SheenGloss)
}

// MetalKinds are the finishes of metal.
func MetalKinds() Enum[MetalKind] {
	return enum("metal", MetalSteel, MetalSteel, MetalChrome, MetalBrass, MetalBlack)
}

// CoverKinds are the covers of a drain.
func CoverKinds() Enum[CoverKind] {
	return enum("cover", CoverSlotted, CoverSlotted, CoverTileInsert)
}

// UnitSystems are the systems of units a job can be shown in.
func UnitSystems() Enum[unit.System] {
	return enum("units", unit.Metric, unit.Metric, unit.Imperial)
}

// checkEnum notes a problem when a value is not of its list.
func checkEnum[T ~string](v *validator, key string, value T, e Enum[T]) {
	if !e.Has(value) {
		v.problems = append(v.problems, Problem{Key: key, What: e.unknown(value), Usual: string(e.Usual)})
	}
}

// IDs are all ids that follow from the table of inputs: of stations, of inputs with their
// help, of things and of choices.
func IDs() []message.ID {
	var out []message.ID
	for _, s := range append(Stations(), HowExact) {
		out = append(out, s.ID(), s.About())
	}
	for _, in := range Inputs() {
		out = append(out, in.Label(), in.Help())
		if in.Table != nil {
			out = append(out, in.Table.ids()...)
		}
	}
	for _, l := range everyList() {
		out = append(out, l.Name())
		if !l.Fixed {
			out = append(out, l.AddLabel(), l.RemoveLabel())
		}
		for _, e := range l.Entries() {
			out = append(out, l.Label(e))
			if e.Explained {
				out = append(out, l.Help(e))
			}
			if e.Choice != nil {
				out = append(out, e.Choice.Words...)
			}
		}
	}
	for _, words := range [][]message.ID{
		EdgeKinds().words(), WallKinds().words(), LeafSwings().words(), FloorKinds().words(), SupportKinds().words(), HeightModes().words(),
		FallKinds().words(), EndsKinds().words(), ExitKinds().words(), ExitLevelKinds().words(), FittingKinds().words(), Bonds().words(),
		Surfaces().words(), Sheens().words(), MetalKinds().words(), CoverKinds().words(), LightKinds().words(), ThingKinds().words(),
		UnitSystems().words(), InputStandings().words(), ReadOns().words(),
	} {
		out = append(out, words...)
	}
	return out
}

// WordOf is the id of the word for a value of one of the job's lists; ok is false for any other value.
func WordOf(value any) (id message.ID, ok bool) {
	switch v := value.(type) {
	case EdgeKind:
		return EdgeKinds().wordOf(v)
	case WallKind:
		return WallKinds().wordOf(v)
	case LeafSwing:
		return LeafSwings().wordOf(v)
	case FloorKind:
		return FloorKinds().wordOf(v)
	case SupportKind:
		return SupportKinds().wordOf(v)
	case HeightMode:
		return HeightModes().wordOf(v)
	case FallKind:
		return FallKinds().wordOf(v)
	case EndsKind:
		return EndsKinds().wordOf(v)
	case ReadOn:
		return ReadOns().wordOf(ReadOns().OrUsual(v))
	case ExitKind:
		return ExitKinds().wordOf(v)
	case ExitLevel:
		return ExitLevelKinds().wordOf(v.Kind())
	case FittingKind:
		return FittingKinds().wordOf(v)
	case MetalKind:
		return MetalKinds().wordOf(v)
	case CoverKind:
		return CoverKinds().wordOf(v)
	case unit.System:
		return UnitSystems().wordOf(v)
	}
	return "", false
}

// wordOf is the id of a value's word.
func (e Enum[T]) wordOf(v T) (id message.ID, ok bool) {
	for _, c := range e.Choices {
		if c.Value == v {
			return c.Word(), true
		}
	}
	return "", false
}
