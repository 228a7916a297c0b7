package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/part"
)

// The slab is the room's floor times its thickness, wherever the floor lies.
func TestSlab(t *testing.T) {
	b := build(t, nil)
	b.volume("slab", 2400*1900*150)
	b.box("slab", mgl64.Vec3{0, 0, -150}, mgl64.Vec3{2400, 1900, 0})
	b.none("deck", "joist-1", "battens", "base-let-in")
	b = build(t, func(j *job.Job) { j.Floor.SlabThicknessMM = 200 })
	b.volume("slab", 2400*1900*200)
	// A floor that rises 4 mm in each metre to the back: as thick, plumb, and
	// from −150 at the front to 7.6 at the back.
	b = build(t, tilted)
	b.volume("slab", 2400*1900*150)
	b.box("slab", mgl64.Vec3{0, 0, -150}, mgl64.Vec3{2400, 1900, 7.6})
}

// tilted is a floor that rises 4 mm a metre towards y.
func tilted(j *job.Job) {
	j.SpotLevels = []job.SpotLevel{{At: [2]float64{0, 0}}, {At: [2]float64{2000, 0}}, {At: [2]float64{0, 900}, LevelMM: 3.6}, {At: [2]float64{2000, 900}, LevelMM: 3.6}}
}

// An exit through the floor at (300, 1832) takes a hole out of slab or deck with
// 8 mm left round the pipe of 50: a circle of 33, π·33² = 3421.19 mm².
func TestHoleForADrop(t *testing.T) {
	drop := func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: [2]float64{300, 1832}} }
	b := build(t, drop)
	// The walls end with the slab's underside, and the drop 100 below it.
	b.rounded("slab", (2400*1900-math.Pi*33*33)*150, -chords(2*math.Pi*33, 150))
	b.open("slab", mgl64.Vec3{300 - 32.8, 1832, -75}, mgl64.Vec3{300, 1832 + 32.8, -75}, mgl64.Vec3{300, 1832, -1})
	b.filled("slab", mgl64.Vec3{300 - 33.1, 1832, -75}, mgl64.Vec3{300, 1832 + 33.1, -75})
	b = build(t, func(j *job.Job) {
		onJoists(j)
		drop(j)
	})
	b.rounded("deck", (2400*1900-math.Pi*33*33)*22, -chords(2*math.Pi*33, 22))
	b.box("deck", mgl64.Vec3{0, 0, -22}, mgl64.Vec3{2400, 1900, 0})
	// An existing pipe's end takes none.
	b = build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: [2]float64{300, 1832}} })
	b.volume("slab", 2400*1900*150)
	b = build(t, func(j *job.Job) {
		drop(j)
		j.Waste.HoleRoomMM = 15
	})
	b.rounded("slab", (2400*1900-math.Pi*40*40)*150, -chords(2*math.Pi*40, 150))
	// A pipe that a reducer has made larger needs a larger hole: 75/2 + 8 = 45.5.
	b = build(t, func(j *job.Job) {
		drop(j)
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 50, LengthMM: 60, Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 71, SocketOutsideMM: 75 + 7}}}
	})
	b.rounded("slab", (2400*1900-math.Pi*45.5*45.5)*150, -chords(2*math.Pi*45.5, 150))
}

// onJoists is the starting job on a timber floor: a deck of 22, joists 47 × 195
// along y, at x = 2200, 1800 … 200.
func onJoists(j *job.Job) {
	j.Floor.Kind = job.FloorTimber
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = 90, 200
}

// letIn is the base let in between those joists, its top 10 below the deck's:
// joists' tops at −22, base up to −10, bed to −7, flange 13; the outlet's invert
// at 13 − 75 = −62, the pipe's middle at −39.
func letIn(j *job.Job) {
	onJoists(j)
	j.Base.Support = job.BetweenJoists
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, -10
}

// Whole joists are 47 × 195 × 1900 from the deck's underside down.
func TestWholeJoists(t *testing.T) {
	b := build(t, onJoists)
	for n, id := range []string{"joist-1", "joist-2", "joist-3", "joist-4", "joist-5", "joist-6"} {
		x := 2200 - 400*float64(n)
		b.volume(id, 47*195*1900)
		b.box(id, mgl64.Vec3{x - 23.5, 0, -217}, mgl64.Vec3{x + 23.5, 1900, -22})
	}
	b.none("joist-7", "slab")
	b.volume("deck", 2400*1900*22)
	// On a floor that rises with y the joists lie with it: 1900 long in plan.
	b = build(t, func(j *job.Job) {
		onJoists(j)
		tilted(j)
	})
	b.volume("joist-1", 47*195*1900)
	b.box("joist-1", mgl64.Vec3{2176.5, 0, -217}, mgl64.Vec3{2223.5, 1900, -22 + 7.6})
}

// A pipe that goes left at 1:40 through joists 5 and 6 and lies over their tops'
// level is sawn in as a notch of 50 + 2·3 = 56. In joist 5, its faces at x 623.5
// and 576.5, 21.5 and 68.5 from the outlet at 645: the middle of the pipe lies at
// −39 − 0.5375 and −39 − 1.7125. On a face the hole is an ellipse as wide as the
// pipe's, 28, and half as high as 28·√(1 + 1/40²). The notch goes from the joist's
// top at −22 to the lower middle, 18.7125 of 56 wide, and under it half an
// ellipse; all through 47 of joist. In joist 6, 400 further on, 10 deeper.
func TestNotchedJoist(t *testing.T) {
	b := build(t, letIn)
	half := 28 * math.Sqrt(1+1.0/1600)
	for id, deep := range map[string]float64{"joist-5": 18.7125, "joist-6": 28.7125} {
		if k := b.crossing(id).Kind; k != joist.Notch {
			t.Fatalf("%s has a %s, want a notch", id, k)
		}
		// The chords' corners stand to both sides of its widest place, so that its
		// flanks too are up to 0.05 in.
		b.rounded(id, 47*(195*1900-(56*deep+math.Pi/2*28*half)), -chords(math.Pi*28, 47)-2*0.05*deep*47)
	}
	b.volume("joist-4", 47*195*1900)
	// It reaches 28 to each side of y = 1832 up to the top, and no lower than
	// its ellipse.
	b.open("joist-5", mgl64.Vec3{600, 1832 - 27.9, -22.1}, mgl64.Vec3{600, 1832 + 27.9, -22.1}, mgl64.Vec3{600, 1832, -68.5})
	b.filled("joist-5", mgl64.Vec3{600, 1832 - 28.1, -22.1}, mgl64.Vec3{600, 1832 + 28.1, -22.1}, mgl64.Vec3{600, 1832, -68.9})
	// Neither joist has the other's cut.
	b.filled("joist-5", mgl64.Vec3{600, 1832, -75})
	b.open("joist-6", mgl64.Vec3{200, 1832, -75})
	b.box("joist-5", mgl64.Vec3{576.5, 0, -217}, mgl64.Vec3{623.5, 1900, -22})
}

func (b built) crossing(id string) joist.Crossing {
	b.t.Helper()
	for _, c := range b.Crossings() {
		if id == "joist-"+string(rune('0'+c.Joist.Number)) {
			return c
		}
	}
	b.t.Fatalf("%s is not cut", id)
	return joist.Crossing{}
}

// The outlet 75 lower, the same pipe goes through the same joists as a hole: what
// an ellipse of 28 by 28·√(1 + v²) sweeps on the way from one face to the other,
// v = 1/40 down for each millimetre across: the ellipse, and 47·v of 56 wide.
func TestHoleInAJoist(t *testing.T) {
	b := build(t, func(j *job.Job) {
		letIn(j)
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 150, 170
	})
	for _, id := range []string{"joist-5", "joist-6"} {
		if k := b.crossing(id).Kind; k != joist.Hole {
			t.Fatalf("%s has a %s, want a hole", id, k)
		}
		b.rounded(id, 47*(195*1900-oblique(28, 0, 1.0/40, 47)), -chords(2*math.Pi*28, 47))
	}
	// The middle of the pipe in joist 5 at −114 − 1.125.
	b.open("joist-5", mgl64.Vec3{600, 1832, -115.125}, mgl64.Vec3{600, 1832, -115.125 + 28}, mgl64.Vec3{600, 1832 - 27.5, -115.125})
	b.filled("joist-5", mgl64.Vec3{600, 1832, -115.125 + 29}, mgl64.Vec3{600, 1832, -115.125 - 29}, mgl64.Vec3{600, 1832 - 28.1, -115.125})
}

// oblique is the area of a hole square through a board for a round pipe that goes
// through it askew: for each millimetre into the board it goes along and rises by
// as much as given. On either face it is the ellipse that the pipe's radius makes
// there, π·r²·√(1 + along² + rise²); from one face to the other its middle moves
// by v = √(along² + rise²) for each millimetre, and square to that way the ellipse
// is 2r wide.
func oblique(radiusMM, along, rise, thicknessMM float64) float64 {
	v := along*along + rise*rise
	return math.Pi*radiusMM*radiusMM*math.Sqrt(1+v) + thicknessMM*math.Sqrt(v)*2*radiusMM
}

// Joists at 45° to the pipe: along them it goes as far as across, and falls by
// √2/40 for each millimetre across. An ellipse, not a circle: 3484 mm² on each
// face where the circle has 2463.
func TestObliqueHoleInAJoist(t *testing.T) {
	b := build(t, func(j *job.Job) {
		letIn(j)
		j.Floor.Joists.DirectionDeg = 45
		// The joist whose middle the pipe meets half way along: by the distance of
		// (322.5, 1832) from the corner farthest right of the joists, (2400, 0).
		j.Floor.Joists.FirstOffsetMM = (2400 - 322.5 + 1832) / math.Sqrt2
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 150, 170
	})
	found := false
	for _, c := range b.Crossings() {
		if math.Abs(c.At.X()-322.5) > 1e-6 {
			continue
		}
		found = true
		id := "joist-" + string(rune('0'+c.Joist.Number))
		whole := 47 * 195 * (c.Joist.ToMM - c.Joist.FromMM)
		// The longer ellipse of 28√2 by 28 is less than 220 round.
		b.rounded(id, whole-47*oblique(28, 1, math.Sqrt2/40, 47), -chords(220*math.Sqrt2, 47))
	}
	if !found {
		t.Fatalf("no joist is met half way: %+v", b.Crossings())
	}
}

// Wood that stands beyond the ends of a cut stays: the hole through a severed
// joist leaves it in two closed pieces.
func TestSeveredJoist(t *testing.T) {
	b := build(t, func(j *job.Job) {
		letIn(j)
		j.Floor.Joists.DepthMM = 50 // from −22 to −72, the pipe's hole from −68.7 to over its top
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 90, 110
	})
	// The hole's middle at −54 − 1.125 in joist 5: from −26.6 to −83.7, below the
	// joist's underside, and 4 mm of wood over it.
	if k := b.crossing("joist-5").Kind; k != joist.Severed {
		t.Fatalf("a %s", k)
	}
	b.filled("joist-5", mgl64.Vec3{600, 1832, -25})
	b.open("joist-5", mgl64.Vec3{600, 1832, -28}, mgl64.Vec3{600, 1832, -71.9})
}
