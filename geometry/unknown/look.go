package unknown

import (
	"cmp"
	"math"
	"strings"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Look is the one look that settles most.
type Look struct {
	// Of is what it tells; without values where nothing usual is known of it.
	Of Unknown
	// Do says where to look and what for.
	Do message.Message
	// Settles says how much of what is open that takes away.
	Settles message.Message
	// Cautions are what can hurt in looking.
	Cautions []message.Message
}

// look is the look that settles most: at what is not known, else at what is assumed; nil where
// nothing is worth one. What is found not to be stated comes before what is assumed, as the answer
// waits for it, unless that decides what is built.
func (x *Exploration) look() *Look {
	if best := cmp.Or(mostWorth(seen(x.Unknowns)), mostWorth(x.Unknowns)); best != nil {
		return x.lookAt(best)
	}
	best := mostWorth(seen(x.Assumed))
	if best == nil {
		return nil
	}
	if best.Worth.Built > 0 || best.Worth.MM > planMM {
		return x.lookAt(best)
	}
	if waits := x.Cases[0].Answer.Of(rule.NotKnown); len(waits) > 0 {
		f := waits[0].Worst().Finding
		tells := Worth{Standing: 1}
		return &Look{Of: Unknown{Key: f.Measurement.Field(), What: f.Rule.Heading(), Worth: tells}, Settles: x.settles(tells),
			Do: message.Of("look.not-stated", message.In("heading", f.Rule.Heading()), message.In("remedy", f.Rule.Remedy()))}
	}
	return x.lookAt(best)
}

// planMM is by how much a step must differ for a floor to be planned otherwise: no fitter makes that up in the bed. Common
// practice, no source.
const planMM = 20

// seen are those of some inputs that are found out by looking: what the base stands on somebody decides, by how the joists lie.
func seen(all []Unknown) (out []Unknown) {
	for _, u := range all {
		if u.Key != supportKey {
			out = append(out, u)
		}
	}
	return out
}

// mostWorth is what it is worth most to know; nil where nothing matters.
func mostWorth(of []Unknown) (best *Unknown) {
	for i := range of {
		if u := &of[i]; u.Worth.Matters() && (best == nil || u.Worth.compare(best.Worth) > 0) {
			best = u
		}
	}
	return best
}

// lookAt is the look at one of what is not known or assumed.
func (x *Exploration) lookAt(u *Unknown) *Look {
	do, cautions := HowTo(u.Key, u.What)
	return &Look{*u, do, x.settles(u.Worth), cautions}
}

// Rest says that nothing is worth more than a few millimetres but what matters; nothing where there
// is nothing else that is not known or assumed.
func (x *Exploration) Rest() message.Message {
	for _, us := range [...][]Unknown{x.Unknowns, x.Assumed} {
		for _, u := range us {
			if !u.Worth.Matters() {
				return message.Of("unknown.rest", message.MM("mm", geometry.SameStepMM))
			}
		}
	}
	return message.Message{}
}

// settles says what a look is worth.
func (x *Exploration) settles(w Worth) message.Message {
	spread := math.Max(x.Step.SpreadMM(), w.MM)
	mm, of := message.MM("mm", w.MM), message.MM("of", spread)
	all := math.Round(w.MM) >= math.Round(spread)
	switch {
	case w.Built > 0 && w.MM > geometry.SameStepMM && all:
		return message.Of("look.settles-built-and-all", mm)
	case w.Built > 0 && w.MM > geometry.SameStepMM:
		return message.Of("look.settles-built-and-mm", mm, of)
	case w.Built > 0:
		return message.Of("look.settles-built")
	case w.MM > geometry.SameStepMM && all:
		return message.Of("look.settles-all", mm)
	case w.MM > geometry.SameStepMM:
		return message.Of("look.settles-mm", mm, of)
	}
	return message.Of("look.settles-standing")
}

// HowTo says how an input, called so, is found out, and what can hurt in it.
func HowTo(key string, what message.Message) (do message.Message, cautions []message.Message) {
	if do, cautions = howToLook(key); do.IsZero() {
		do = message.Of("look.measure", message.In("what", what))
	}
	return do, cautions
}

// howToLook says how an input is found out, and what can hurt in it. Nothing of what is simply
// measured where it is seen.
func howToLook(key string) (do message.Message, cautions []message.Message) {
	lifting := []message.Message{message.Of("look.caution-services"), message.Of("look.caution-asbestos"), message.Of("look.caution-hole")}
	switch {
	case key == floorKey:
		return message.Of("look.floor"), lifting
	case key == supportKey:
		return message.Of("look.support"), nil
	case key == runKey:
		return message.Of("look.joists-run"), lifting
	case strings.HasPrefix(key, "floor.joists."), strings.HasPrefix(key, "floor.deck."):
		return message.Of("look.joists"), lifting
	case key == "floor.ceilingBelow":
		return message.Of("look.below"), nil
	case key == "floor.slabThicknessMM":
		return message.Of("look.slab"), []message.Message{message.Of("look.caution-drilling"), message.Of("look.caution-heating"),
			message.Of("look.caution-dust"), message.Of("look.caution-membrane")}
	case key == exitKey:
		return message.Of("look.exit"), []message.Message{message.Of("look.caution-drains")}
	case key == levelKey || strings.HasPrefix(key, "room.pipeEnds") || strings.HasPrefix(key, "room.stacks"):
		return message.Of("look.level"), []message.Message{message.Of("look.caution-drains")}
	}
	if _, of, ok := wallOf(key); ok {
		switch of {
		case "outsideGroundMM":
			return message.Of("look.ground"), nil
		case "kind":
			return message.Of("look.wall-kind"), []message.Message{message.Of("look.caution-drilling"), message.Of("look.caution-asbestos")}
		}
		return message.Of("look.wall"), []message.Message{message.Of("look.caution-drilling")}
	}
	return do, nil
}
