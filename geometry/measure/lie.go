package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
)

// LevelFloor is the floor that lies level with the drain and is tiled: beside and behind a
// drain shorter than its side. Water stands on it.
type LevelFloor struct {
	Region  plan.Region
	AreaMM2 float64
	// WidestMM is how wide it is at its widest, between its outermost corners along the
	// drain or across it, whichever is less, of one piece beside or behind the drain.
	WidestMM float64
}

// levelFloor is what of the floor lies in no falling plane, less what the walls' finish
// and a kerb stand on.
//
// Method: clipped by straight lines: exact.
func levelFloor(r *stage.Levelled) LevelFloor {
	out := LevelFloor{Region: r.Layout.Level}
	for _, f := range finishedFaces(r) {
		out.Region = without(out.Region, f, r.Settled.Layers.Wall.ThicknessMM())
	}
	l := &r.Layout
	if len(l.Kerb) > 0 {
		for _, e := range l.OpenEdges() {
			out.Region = without(out.Region, face{e.A, e.B, l.Outward(e).Mul(-1)}, r.Settled.Shower.Kerb.WidthMM)
		}
	}
	out.AreaMM2 = out.Region.Area()
	along, across := l.DrainAlong, plan.Left(l.DrainAlong)
	u0, u1 := l.Drain.Reach(along)
	v0, v1 := l.Drain.Reach(across)
	for _, side := range [...]func(plan.Point) float64{
		func(p plan.Point) float64 { return p.Dot(along) - u1 }, func(p plan.Point) float64 { return u0 - p.Dot(along) },
		func(p plan.Point) float64 { return p.Dot(across) - v1 }, func(p plan.Point) float64 { return v0 - p.Dot(across) },
	} {
		piece := out.Region.Where(side)
		if piece.Area() < leastPieceMM2 {
			continue
		}
		a0, a1 := piece.Reach(along)
		b0, b1 := piece.Reach(across)
		out.WidestMM = math.Max(out.WidestMM, math.Min(a1-a0, b1-b0))
	}
	return out
}

// leastPieceMM2 is an area that is nothing but rounding.
const leastPieceMM2 = 1e-3

// face is a stretch of a finished wall's bare face; In points into the room.
type face struct {
	a, b plan.Point
	in   plan.Point
}

// finishedFaces are the walls that carry the wall's finish: those of the shower, of the
// whole room where all of it falls.
func finishedFaces(r *stage.Levelled) []face {
	var out []face
	for _, s := range r.Layout.FinishedWalls(&r.Settled) {
		out = append(out, face{s.Wall.At(s.From), s.Wall.At(s.To), s.Wall.Outward.Mul(-1)})
	}
	return out
}

// without is a region without what lies on a strip of a thickness along a face.
func without(r plan.Region, f face, thicknessMM float64) plan.Region {
	along := f.b.Sub(f.a).Normalize()
	deep := func(p plan.Point) float64 { return p.Sub(f.a).Dot(f.in) }
	strip := r.Where(deep).Where(func(p plan.Point) float64 { return thicknessMM - deep(p) })
	out := r.Where(func(p plan.Point) float64 { return deep(p) - thicknessMM })
	for _, rest := range []plan.Region{
		r.Where(func(p plan.Point) float64 { return -deep(p) }),
		strip.Where(func(p plan.Point) float64 { return f.a.Sub(p).Dot(along) }),
		strip.Where(func(p plan.Point) float64 { return p.Sub(f.b).Dot(along) }),
	} {
		if rest.Area() > leastPieceMM2 {
			out = append(out, rest...)
		}
	}
	return out
}

// TileFit is the largest tile of the floor tile's shape that lies whole in one falling
// plane where planes meet on creases. A tile that lies across a crease has to be cut
// along it. Beside a drain tiles are cut in any case: planes to its ends have no fit.
type TileFit struct {
	Plane    int // index
	LengthMM float64
	WidthMM  float64
	// OverMM is by how much the floor's tile is longer; nought where it lies whole.
	OverMM float64
}

// tileFits is the fit in each plane; none where there are no creases. Tiles lie along the
// shower's sides or across them, whichever goes better; hexagons with their flats to the
// sides; bricks in herringbone both ways.
//
// Method: the largest scale of the tile in the convex hull of the plane, which for a
// plane that is cut back by a corner of the room is on the large side.
func tileFits(r *stage.Levelled, creases []layout.Crease) []TileFit {
	f := r.Settled.Layers.Shower
	if len(creases) == 0 || f.TileLengthMM <= 0 || f.TileWidthMM <= 0 {
		return nil
	}
	u, v := r.Layout.ToRight, r.Layout.Into
	one, other := tileShape(f, u, v), tileShape(f, v, u)
	var out []TileFit
	for i, p := range r.Layout.Planes {
		if p.End {
			continue
		}
		var corners []plan.Point
		for _, poly := range p.Region {
			corners = append(corners, poly.Outer...)
		}
		hull := plan.Hull(corners)
		k, turned := hull.LargestScale(one), hull.LargestScale(other)
		if f.Bond == job.BondHerringbone {
			k = math.Min(k, turned)
		} else {
			k = math.Max(k, turned)
		}
		out = append(out, TileFit{i, k * f.TileLengthMM, k * f.TileWidthMM, math.Max(0, (1-k)*f.TileLengthMM)})
	}
	return out
}

// tileShape is a tile about the origin with its length along u.
func tileShape(f job.Finish, u, v plan.Point) plan.Ring {
	a, b := u.Mul(f.TileLengthMM/2), v.Mul(f.TileWidthMM/2)
	if f.Bond != job.BondHexagon {
		return plan.Ring{a.Add(b), b.Sub(a), a.Mul(-1).Sub(b), a.Sub(b)}
	}
	// As wide across the flats as the tile is long, its points on the other axis.
	tip := f.TileLengthMM / math.Sqrt(3)
	out := plan.Ring{v.Mul(tip), v.Mul(-tip)}
	for _, s := range [4][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
		out = append(out, a.Mul(s[0]).Add(v.Mul(s[1]*tip/2)))
	}
	return out
}

// SmallestFit is the fit in the plane that takes the smallest tile; ok is false without any.
func SmallestFit(fits []TileFit) (least TileFit, ok bool) {
	for _, f := range fits {
		if !ok || f.LengthMM < least.LengthMM {
			least, ok = f, true
		}
	}
	return least, ok
}
