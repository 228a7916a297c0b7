package unknown

import (
	"math"
	"strings"

	"underfall/geometry"
	"underfall/geometry/message"
)

// Look is the one look that settles most.
type Look struct {
	// Of is what it tells.
	Of Unknown
	// Do says where to look and what for.
	Do message.Message
	// Settles says how much of what is open that takes away.
	Settles message.Message
	// Cautions are what can hurt in looking.
	Cautions []message.Message
}

// look is the look that settles most: at what is not known, else at what is assumed; nil where
// nothing is worth one.
func (x *Exploration) look() *Look {
	for _, us := range [...][]Unknown{x.Unknowns, x.Assumed} {
		var best *Unknown
		for i := range us {
			if u := &us[i]; u.Worth.Matters() && (best == nil || u.Worth.compare(best.Worth) > 0) {
				best = u
			}
		}
		if best != nil {
			do, cautions := howToLook(best.Key)
			if do.IsZero() {
				do = message.Of("look.measure", message.In("what", best.What))
			}
			return &Look{*best, do, x.settles(best.Worth), cautions}
		}
	}
	return nil
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
	switch {
	case w.Built > 0 && w.MM > geometry.SameStepMM:
		return message.Of("look.settles-built-and-mm", mm, of)
	case w.Built > 0:
		return message.Of("look.settles-built")
	case w.MM > geometry.SameStepMM && math.Round(w.MM) >= math.Round(spread):
		return message.Of("look.settles-all", mm)
	case w.MM > geometry.SameStepMM:
		return message.Of("look.settles-mm", mm, of)
	}
	return message.Of("look.settles-standing")
}

// howToLook says how an input is found out, and what can hurt in it. Nothing of what is simply
// measured where it is seen.
func howToLook(key string) (do message.Message, cautions []message.Message) {
	lifting := []message.Message{message.Of("look.caution-services"), message.Of("look.caution-asbestos"), message.Of("look.caution-hole")}
	switch {
	case key == floorKey:
		return message.Of("look.floor"), lifting
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
