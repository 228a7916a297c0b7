package job

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// LeafSwing says where a door leaf goes when it opens.
type LeafSwing string

// The ways a door leaf can open.
const (
	LeafNone LeafSwing = "none"
	LeafIn   LeafSwing = "in"
	LeafOut  LeafSwing = "out"
	// LeafSlide slides along the wall's face in the room, LeafPocket into the wall.
	LeafSlide  LeafSwing = "slide"
	LeafPocket LeafSwing = "pocket"
)

// Slides tells whether a leaf slides aside.
func (s LeafSwing) Slides() bool { return s == LeafSlide || s == LeafPocket }

// Doorway is an opening in a wall.
type Doorway struct {
	Wall     int     `json:"wall"`
	OffsetMM float64 `json:"offsetMM"` // from the wall's start corner to the opening
	WidthMM  float64 `json:"widthMM"`
	// HeightMM is of the opening, above NeighbourFFLMM.
	HeightMM float64 `json:"heightMM"`
	// NeighbourFFLMM is the finished floor level of the room beyond.
	NeighbourFFLMM float64   `json:"neighbourFFLMM"`
	Leaf           LeafSwing `json:"leaf"`
	// HingeAtStart tells that the leaf hangs at the side of the wall's start corner, or slides
	// to that side.
	HingeAtStart bool `json:"hingeAtStart"`
	// LeafKeepsMM is how much of the opening the edge of a sliding leaf keeps when it is open.
	LeafKeepsMM float64 `json:"leafKeepsMM,omitempty"`
	// LeafGapMM is the clear height under the leaf above the neighbour's floor.
	LeafGapMM float64 `json:"leafGapMM"`
}

// DoorwaysKey is the key of the list of doorways.
const DoorwaysKey = "room.doorways"

// doorwayList is the list of doorways.
func doorwayList() List {
	return listed(DoorwaysKey, mostItems, func(j *Job) *[]Doorway { return &j.Room.Doorways }, usualDoorway,
		inWall(func(d *Doorway) *int { return &d.Wall }),
		along("offsetMM", 0, farthestMM, 5, func(d *Doorway) *float64 { return &d.OffsetMM }),
		along("widthMM", 100, 5000, 5, func(d *Doorway) *float64 { return &d.WidthMM }),
		length("neighbourFFLMM", -1000, 1000, 5, func(d *Doorway) *float64 { return &d.NeighbourFFLMM }),
		lessUsed(length("heightMM", 500, 4000, 5, func(d *Doorway) *float64 { return &d.HeightMM })),
		lessUsed(choose("leaf", LeafSwings(), func(d *Doorway) *LeafSwing { return &d.Leaf })),
		lessUsed(length("leafGapMM", 0, 500, 5, func(d *Doorway) *float64 { return &d.LeafGapMM })),
		lessUsed(where(func(d *Doorway) bool { return d.Leaf != LeafNone }, yes("hingeAtStart", func(d *Doorway) *bool { return &d.HingeAtStart }))),
		lessUsed(where(func(d *Doorway) bool { return d.Leaf.Slides() },
			along("leafKeepsMM", 0, 1000, 5, func(d *Doorway) *float64 { return &d.LeafKeepsMM }))))
}

// FreeDoorway is a usual doorway in the first wall that takes one after the doorways it
// has; ok is false where there is none. Sizes are common practice, no source.
func FreeDoorway(j *Job) (d Doorway, ok bool) {
	const toCornerMM = 20
	d = Doorway{OffsetMM: toCornerMM, WidthMM: 760, HeightMM: 2040, Leaf: LeafSwings().Usual, LeafGapMM: 8}
	for wall := range j.Room.Outline {
		at := float64(toCornerMM)
		for _, o := range j.Room.Doorways {
			if o.Wall == wall {
				at = math.Max(at, o.OffsetMM+o.WidthMM+toCornerMM)
			}
		}
		if at+d.WidthMM+toCornerMM <= j.Room.WallLengthMM(wall) {
			d.Wall, d.OffsetMM = wall, at
			return d, true
		}
	}
	return d, false
}

// usualDoorway is one where there is room for it; at the first wall's start where there is
// none.
func usualDoorway(j *Job) Doorway {
	d, _ := FreeDoorway(j)
	return d
}

// doorways checks that doorways lie in their walls, apart from each other.
func (v *validator) doorways(r Room) {
	for i, d := range r.Doorways {
		key := Nth(DoorwaysKey, i)
		length := r.WallLengthMM(d.Wall)
		if length == 0 {
			continue // in no wall, which is said
		}
		if d.OffsetMM+d.WidthMM > length+plan.HairMM {
			v.add(key+".offsetMM", "problem.doorway-past-wall", longest("length", length))
			continue
		}
		for k, o := range r.Doorways[:i] {
			if o.Wall == d.Wall && overlap(o.OffsetMM, o.WidthMM, d.OffsetMM, d.WidthMM) {
				v.add(key, "problem.doorways-overlap", message.No("other", k+1))
			}
		}
	}
}

// BeyondOpen tells whether nobody has said how high the floor beyond a doorway lies: what is usual stands in for it.
func (j *Job) BeyondOpen(doorway int) bool {
	return j.StandingOf(Nth(DoorwaysKey, doorway) + ".neighbourFFLMM").Open()
}
