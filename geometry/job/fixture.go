package job

import (
	"fmt"

	"underfall/geometry/plan"
)

// FixtureKind is what stands or hangs in the room.
type FixtureKind string

// The kinds of fixture.
const (
	FixtureBasin    FixtureKind = "basin"
	FixtureToilet   FixtureKind = "toilet"
	FixtureRadiator FixtureKind = "radiator"
	FixtureCupboard FixtureKind = "cupboard"
)

// Fixture is a box at a wall that takes room beside the shower.
type Fixture struct {
	Kind     FixtureKind `json:"kind"`
	Wall     int         `json:"wall"`
	OffsetMM float64     `json:"offsetMM"` // from the wall's start corner
	WidthMM  float64     `json:"widthMM"`  // along the wall
	DepthMM  float64     `json:"depthMM"`  // into the room
	HeightMM float64     `json:"heightMM"`
	// UnderMM is its underside over the finished floor; 0 where it stands on it.
	UnderMM float64 `json:"underMM"`
}

// Footprint is a fixture in plan, by the corners of the wall that it is at: its two ends
// on the wall first.
func (r Room) Footprint(f Fixture) plan.Ring {
	n := len(r.Outline)
	a, b := r.Outline[f.Wall], r.Outline[(f.Wall+1)%n]
	along := b.Sub(a).Normalize()
	in := plan.Left(along)
	if plan.Ring(r.Outline).SignedArea() < 0 {
		in = in.Mul(-1)
	}
	from, to := a.Add(along.Mul(f.OffsetMM)), a.Add(along.Mul(f.OffsetMM+f.WidthMM))
	deep := in.Mul(f.DepthMM)
	return plan.Ring{from, to, to.Add(deep), from.Add(deep)}
}

// usualFixture is a basin where there is room for one.
func usualFixture(j *Job) Fixture {
	f, _ := FreeFixture(j, FixtureBasin)
	return f
}

// fixtureOf is a fixture of a kind, at no place yet. Sizes are common practice, no source.
func fixtureOf(k FixtureKind) Fixture {
	f := Fixture{Kind: k}
	switch k {
	case FixtureToilet:
		f.WidthMM, f.DepthMM, f.HeightMM = 380, 680, 800
	case FixtureRadiator:
		f.WidthMM, f.DepthMM, f.HeightMM, f.UnderMM = 500, 100, 1200, 150
	case FixtureCupboard:
		f.WidthMM, f.DepthMM, f.HeightMM = 500, 350, 1800
	default:
		f.WidthMM, f.DepthMM, f.HeightMM, f.UnderMM = 500, 400, 150, 700
	}
	return f
}

// FreeFixture is a usual fixture of a kind at the first place along the walls that is free of shower,
// doorways and other fixtures; ok is false where there is none, and it is at the first wall's start.
func FreeFixture(j *Job, k FixtureKind) (f Fixture, ok bool) {
	const stepMM, trifleMM2 = 50, 1
	f = fixtureOf(k)
	room, corners := plan.FromRing(j.Room.Outline), j.ShowerCorners()
	taken := []plan.Region{plan.FromRing(corners[:])}
	for _, o := range j.Room.Fixtures {
		taken = append(taken, plan.FromRing(j.Room.Footprint(o)))
	}
	for _, d := range j.Room.Doorways {
		taken = append(taken, plan.FromRing(j.Room.Footprint(Fixture{Wall: d.Wall, OffsetMM: d.OffsetMM, WidthMM: d.WidthMM, DepthMM: d.WidthMM})))
	}
	for wall := range j.Room.Outline {
		for at := 0.0; at+f.WidthMM <= j.Room.WallLengthMM(wall); at += stepMM {
			f.Wall, f.OffsetMM = wall, at
			box := plan.FromRing(j.Room.Footprint(f))
			free := box.Area()-plan.SharedArea(box, room) < trifleMM2
			for _, t := range taken {
				free = free && plan.SharedArea(box, t) < trifleMM2
			}
			if free {
				return f, true
			}
		}
	}
	f.Wall, f.OffsetMM = 0, 0
	return f, false
}

// fixtures checks that fixtures lie at their walls. What they are in the way of is for
// rules to say.
func (v *validator) fixtures(r Room) {
	for i, f := range r.Fixtures {
		// One at no wall is said to be that.
		if length := r.WallLengthMM(f.Wall); length > 0 && f.OffsetMM+f.WidthMM > length+plan.HairMM {
			v.add(fmt.Sprintf("room.fixtures[%d].offsetMM", i), "problem.opening-past-wall", longest("length", length))
		}
	}
}
