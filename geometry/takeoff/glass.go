package takeoff

import (
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/source"
)

// atWallMM is within which the edge of a pane stands at a wall, whose finish lies between them.
const atWallMM = 40

// glass are the screens, each with what it is held by, as pictures show it: a fixed pane stands in a profile and in another at each wall
// that it meets, a panel or a door hangs on hinges, a sliding door in a track. What no job states is how a maker's glass is held, so
// that this may be another way.
// Common practice, no source.
func (b *builder) glass() {
	for i := range b.j.Shower.Screens {
		s := &b.j.Shower.Screens[i]
		width, height, thick := message.MM("width", s.WidthMM), message.MM("height", s.HeightMM), message.Layer("thick", s.ThicknessMM)
		along, up := message.MM("long", s.WidthMM), message.MM("long", s.HeightMM)
		switch s.Kind {
		case job.ScreenPanel, job.ScreenDoor:
			item := message.Of("order.panel", width, height, thick)
			if s.Kind == job.ScreenDoor {
				item = message.Of("order.door", width, height, thick)
			}
			b.add(one(Glass, item, nil))
			b.holds(1, message.Of("order.glass-hinges", width, height, thick), message.Of("order.how.glass-hinges"))
			b.holds(1, message.Of("order.glass-sill", along, thick))
		case job.ScreenSlide:
			b.add(one(Glass, message.Of("order.slide", width, height, thick), nil))
			b.holds(1, message.Of("order.glass-track", along, thick), message.Of("order.how.glass-held"))
		default:
			b.add(one(Glass, message.Of("order.pane", width, height, thick), nil))
			b.holds(1, message.Of("order.glass-profile", along, thick), message.Of("order.how.glass-held"))
			b.holds(b.endsAtWalls(i), message.Of("order.glass-at-wall", up, thick))
		}
	}
}

// holds puts so many of what holds glass on the list; how that is bought is said once of each.
func (b *builder) holds(n int, item message.Message, how ...message.Message) {
	l := Line{Group: Glass, Item: item, Needed: count(n), Source: source.Source{Mark: source.Practice}}
	if !slices.ContainsFunc(b.lines, func(o Line) bool { return o.Item.String() == item.String() }) {
		l.How = how
	}
	b.add(l)
}

// endsAtWalls is how many upright edges of a screen stand at a wall.
func (b *builder) endsAtWalls(screen int) (n int) {
	from, to := b.l.Screens[screen].Foot()
	for _, at := range [...]plan.Point{from, to} {
		if mm, _ := b.l.Clear(at); mm < atWallMM {
			n++
		}
	}
	return n
}
