package rule

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// NoReserve says of a shower that water runs over its edge as soon as the waste blocks.
const NoReserve message.ID = "found.no-reserve"

// phrase says what was measured of a finding that is broken in the words that its quantity has of its
// own, with the way it lies where the number is below nought; empty where the usual words do.
func (f Finding) phrase() message.Message {
	if !f.Rule.BrokenBy(f.Measurement.Value) {
		return message.Message{}
	}
	subject, limit := message.In("subject", f.Measurement.Message()), message.Arg{Name: "limit", Value: f.Limit()}
	if f.IsBelow() && f.Rule.Compare == AtLeast {
		return f.underNought(subject, limit)
	}
	if l := f.Measurement.Lies; l != (Lies{}) {
		return f.lying(l, subject)
	}
	id := phraseOf(f.Rule.Quantity)
	const aMoment = 0.05 // of a minute: nobody would call it a time
	switch {
	case f.Rule.Quantity == "water.reserve" && f.Measurement.Value < aMoment:
		return message.Of(NoReserve, subject, limit)
	case f.Rule.Quantity == "step.edge" && f.Rule.Compare == NotBetween:
		return message.Of("found.lip", subject, f.Figure("value"), limit, message.Arg{Name: "to", Value: f.beside(f.rounded(f.Rule.To), f.measured())})
	case id == "found.most" && f.Rule.Compare == AtLeast:
		id = "found.least"
	case id == "":
		return message.Message{}
	}
	return message.Of(id, subject, f.Figure("value"), limit)
}

// lying says how much of a run is seen in the room, how large that is, and where.
func (f Finding) lying(l Lies, subject message.Arg) message.Message {
	args := []message.Arg{subject, f.Figure("value"), message.MM("wide", l.WideMM), message.MM("high", l.HighMM)}
	boxed := f.Rule.Quantity == "pipe.boxed"
	switch {
	case l.Wall == 0 && boxed:
		return message.Of("found.boxed", args...)
	case l.Wall == 0 && l.HighMM < 0:
		return message.Of("found.bare-under", subject, f.Figure("value"), message.MM("under", -l.HighMM))
	case l.Wall == 0:
		return message.Of("found.bare-so", args...)
	}
	args = append(args, message.WallCalled("wall", l.Wall, l.Called), message.MM("far", l.FromWallMM))
	if boxed {
		return message.Of("found.boxed-along", args...)
	}
	if l.HighMM < 0 {
		return message.Of("found.bare-along-under", append(args, message.MM("under", -l.HighMM))...)
	}
	return message.Of("found.bare-along", args...)
}

// phraseOf are the words that a quantity has of its own; empty for the others.
func phraseOf(quantity string) message.ID {
	if id := phraseOfWaste(quantity); id != "" {
		return id
	}
	switch quantity {
	case "head.zone-past":
		return "found.zone"
	case "head.to-open":
		return "found.from-open"
	case "water.reserve":
		return "found.reserve"
	case "base.too-low":
		return "found.too-low"
	case "cover.proud-by":
		return "found.above-tile"
	case "cover.short-by":
		return "found.below-tile"
	case "drain.under-wall":
		return "found.under-finish"
	case "deck.edge-loose":
		return "found.loose-edge"
	case "deck.overhang":
		return "found.past-joist"
	case "drain.strip":
		return "found.to-wall"
	case "tanking.upturn":
		return "found.turned-up"
	case "tanking.screen-stop":
		return "found.over-tile"
	case "tanking.over-head":
		return "found.over-head"
	case "tanking.wall-to":
		return "found.up-to"
	case "joist.hole-size", "joist.hole-off-axis", "joist.hole-edge", "joist.hole-spacing", "joist.hole-zone", "joist.notch-depth",
		"joist.notch-length", "joist.notch-to-hole", "joist.notch-to-hole-depths", "joist.notch-zone":
		return "found.most"
	case "damp.over-ground":
		return "found.over-ground"
	case "clash.joist-gap", "clash.drain-gap", "clash.run-gap", "clash.wall-gap", "clash.deck-gap", "clash.door-gap", "clash.stack-gap",
		"clash.fixture-gap":
		return "found.clear"
	}
	return ""
}

// phraseOfWaste are those of a quantity of the trap, the pipe or its way out.
func phraseOfWaste(quantity string) message.ID {
	switch quantity {
	case "trap.in-joist":
		return "found.in-by"
	case "trap.into-floor", "pipe.into-floor":
		return "found.into-floor"
	case "trap.below-joists", "pipe.below-joists":
		return "found.below-joists"
	case "trap.seal-left":
		return "found.seal-left"
	case "pipe.exposed":
		return "found.bare"
	case "former.over-piece-by":
		return "found.over-piece"
	case "exit.in-sole-plate":
		return "found.into-plate"
	case "exit.in-stud":
		return "found.into-stud"
	case "exit.in-joist":
		return "found.near-joist"
	case "exit.over-stated":
		return "found.over-stated"
	case "exit.too-low":
		return "found.too-low"
	case "exit.too-high":
		return "found.too-high"
	case "exit.above-outlet":
		return "found.above-outlet"
	case "exit.above-ground":
		return "found.over-ground"
	case "exit.narrower", "stack.narrower":
		return "found.narrower"
	case "core.axis-height":
		return "found.core-middle"
	case "core.no-drill-by":
		return "found.over-drill"
	case "core.damp-gap", "core.opening-gap", "exit.off-corner", "pipe.wall-gap":
		return "found.clear"
	}
	return ""
}

// underNought says which way something lies that is measured below nought: nobody reads −18 over the
// slab as 18 in it. Where no words are known for that, how much it lacks is told.
func (f Finding) underNought(subject, limit message.Arg) message.Message {
	by := message.Arg{Name: "by", Value: f.rounded(-f.Measurement.Value)}
	if Quantities()[f.Rule.Quantity] == unit.Slope {
		return message.Of("found.uphill", subject, by, limit)
	}
	if id := underOf(f.Rule.Quantity); id != "" {
		return message.Of(id, subject, by, limit)
	}
	lacks := f.rounded(f.Rule.Limit - f.Measurement.Value)
	return message.Of("found.lacks", subject, message.Arg{Name: "by", Value: lacks})
}

// underOf are the words for what lies below nought; empty for what is told as what it lacks, and for
// bodies that meet.
func underOf(quantity string) message.ID {
	switch quantity {
	case "core.over-slab":
		return "found.into-slab"
	case "core.opening-gap":
		return "found.into-opening"
	case "core.damp-gap":
		return "found.into-damp-course"
	case "core.axis-height":
		return "found.core-under"
	case "exit.off-corner":
		return "found.past-corner"
	case "exit.above-ground", "damp.over-ground":
		return "found.under-ground"
	case "gully.under-grating":
		return "found.over-grating"
	case "gully.over-water":
		return "found.under-water"
	case "door.leaf-gap", "screen.leaf-gap":
		return "found.leaf-into"
	case "head.under-ceiling":
		return "found.over-ceiling"
	case "shower.ceiling":
		return "found.ceiling-under"
	case "kerb.drain-gap":
		return "found.over-drain"
	case "pipe.wall-gap":
		return "found.into-wall"
	case "tanking.over-head":
		return "found.under-head"
	case "pipe.cover":
		return "found.stands-out"
	}
	return ""
}

// IsBelow tells that what was measured lies below nought, where its number alone says nothing.
func (f Finding) IsBelow() bool { return !math.IsNaN(f.Measurement.Value) && f.Measurement.Value < 0 }
