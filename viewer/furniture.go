package viewer

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// stuff is how a face takes the light beside its colour, for what needs telling apart.
type stuff int

const (
	stuffPlain stuff = iota
	stuffMirror
	stuffGlow
	stuffWood
	stuffCloth
	stuffLeaf
	stuffOutside // what is seen by a window: it is as bright as it is, and keeps no light off
)

// palette are the surfaces that furniture is made of.
type palette struct {
	lacquer, wood, stone, ceramic, metal, mirror surface
	accent, pale, mat                            surface // cloth
	clay, soil, leaf, stem, globe, cord, glass   surface
}

// paletteOf is that of a room: one strong colour and quiet ones round it, whatever tile is laid, so that another tile can be
// compared with nothing else changed.
func paletteOf(r *geometry.Result) palette {
	of := func(hex string, rough float32) surface { return surface{parseColour(hex), rough, 0, 1} }
	p := palette{lacquer: of("#e4e1da", 0.34), wood: of("#a98560", 0.44), stone: of("#e9e5dd", 0.3), ceramic: of("#ecebe8", 0.07),
		metal: metalSurface(r.Settled.Style.Metal), mirror: surface{[3]float32{0.86, 0.88, 0.88}, 0.02, 1, 1},
		accent: of("#ac7257", 0.96), pale: of("#e6dccb", 0.96), mat: of("#9aa08f", 0.97), clay: of("#c7b8a4", 0.7), soil: of("#33291f", 1),
		leaf: of("#58764a", 0.5), stem: of("#6b6b45", 0.7), globe: of("#efe9df", 0.14), cord: of("#2a2927", 0.6), glass: of("#5b3016", 0.1)}
	return p
}

// piece is a part of an object, of one surface.
type piece struct {
	name  string
	look  surface
	stuff stuff
	form  *form
	thin  bool // bars
}

// joiner makes the pieces of one object, each surface's faces together.
type joiner struct {
	o      furnish.Object
	pieces []piece
}

// of is the form of all that has a surface.
func (j *joiner) of(name string, look surface, s stuff) *form {
	for _, p := range j.pieces {
		if p.name == name {
			return p.form
		}
	}
	out := flat(j.o.Out)
	f := newForm(j.o.At.Vec3(j.o.FromMM), out.Cross(up()), out, mgl64.Vec3{0, 0, 1})
	j.pieces = append(j.pieces, piece{name: name, look: look, stuff: s, form: f})
	return f
}

// up is the direction that most things are turned about.
func up() mgl64.Vec3 { return mgl64.Vec3{0, 0, 1} }

// piecesOf makes an object; nothing for a kind that has no shape of its own.
func piecesOf(o furnish.Object, p palette) []piece {
	j := &joiner{o: o}
	high := o.ToMM - o.FromMM
	switch o.Kind {
	case furnish.Vanity:
		j.vanity(p, high)
	case furnish.Basin:
		if high > mostBasinMM {
			j.washstand(p, high)
			break
		}
		j.basin(p, 0, high)
	case furnish.Toilet:
		j.toilet(p, high)
	case furnish.Radiator:
		j.radiator(p, high)
	case furnish.Cupboard:
		j.cupboard(p, high)
	case furnish.Casing:
		half := o.WidthMM / 2
		j.of("board", p.lacquer, stuffPlain).block(mgl64.Vec3{-half, 0, 0}, mgl64.Vec3{half, o.DepthMM, high}, 3)
	case furnish.Mirror:
		j.mirror(p, high)
	case furnish.Towels:
		j.towels(p, high)
	case furnish.Stool:
		j.stool(p)
	case furnish.Mat:
		j.mat(p, high)
	case furnish.Plant:
		j.plant(p, high)
	case furnish.Pendant:
		j.pendant(p, high)
	case furnish.Vase:
		j.vase(p, high)
	case furnish.Niche:
		j.niche(p, high)
	}
	return j.pieces
}

// bowl is the profile of a bowl that stands on a top: outside up, over the rim, inside down.
func bowl(radius, high float64) (out [][2]float64) {
	const steps = 7
	foot := radius * 0.58
	out = append(out, [2]float64{0.1, 0.5}, [2]float64{foot, 0.5})
	for k := 1; k <= steps; k++ {
		s, c := math.Sincos(float64(k) / steps * math.Pi / 2)
		out = append(out, [2]float64{foot + (radius-foot)*s, high * (1 - c)})
	}
	out = append(out, [2]float64{radius - 1.5, high + 2.5}, [2]float64{radius - 6, high + 2})
	for k := steps; k >= 0; k-- {
		s, c := math.Sincos(float64(k) / steps * math.Pi / 2)
		out = append(out, [2]float64{foot - 8 + (radius-foot)*s, 12 + (high-14)*(1-c)})
	}
	return append(out, [2]float64{20, 9}, [2]float64{0.1, 9})
}

// tap comes out of the wall over a basin, its lever beside it.
func (j *joiner) tap(p palette, atMM, highMM, reachMM float64) {
	m := j.of("metal", p.metal, stuffPlain)
	path := []mgl64.Vec3{{atMM, 0, highMM}, {atMM, reachMM - 40, highMM}}
	for k := 1; k <= 5; k++ {
		s, c := math.Sincos(float64(k) / 5 * math.Pi / 2)
		path = append(path, mgl64.Vec3{atMM, reachMM - 40 + 30*s, highMM - 30 + 30*c})
	}
	path = append(path, mgl64.Vec3{atMM, reachMM - 10, highMM - 48})
	m.swept(10, 10, path...)
	out := mgl64.Vec3{0, 1, 0}
	m.turned(mgl64.Vec3{atMM, 0, highMM}, out, [][2]float64{{27, 0}, {27, 6}, {25.5, 8}, {10, 8}}, 20)
	m.turned(mgl64.Vec3{atMM + 100, 0, highMM}, out, [][2]float64{{27, 0}, {27, 6}, {25.5, 8}, {17, 8}, {17, 44}, {15.5, 46}, {0.1, 46}}, 20)
	m.swept(4, 6, mgl64.Vec3{atMM + 100, 38, highMM}, mgl64.Vec3{atMM + 100, 42, highMM + 55})
}

func (j *joiner) vanity(p palette, high float64) {
	const topMM, drawerGapMM, frontMM = 22, 4, 19
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	wood := j.of("wood", p.wood, stuffWood)
	if j.o.Other {
		wood = j.of("fronts", p.lacquer, stuffPlain)
	}
	body := high - topMM
	wood.block(mgl64.Vec3{-half + 2, 0, 2}, mgl64.Vec3{half - 2, deep - 32, body}, 2)
	metal := j.of("metal", p.metal, stuffPlain)
	for k := range 2 {
		low := 1 + float64(k)*body/2
		top := low + body/2 - drawerGapMM
		wood.block(mgl64.Vec3{-half + 2, deep - 31, low}, mgl64.Vec3{half - 2, deep - 31 + frontMM, top}, 1.5)
		pull := math.Min(110, half*0.5)
		metal.block(mgl64.Vec3{-pull, deep - 9, top - 44}, mgl64.Vec3{pull, deep, top - 36}, 2)
		for _, x := range []float64{-pull + 10, pull - 18} {
			metal.block(mgl64.Vec3{x, deep - 13, top - 44}, mgl64.Vec3{x + 8, deep - 4, top - 36}, 1)
		}
	}
	j.of("stone", p.stone, stuffPlain).block(mgl64.Vec3{-half, 0, body}, mgl64.Vec3{half, deep - 8, high}, 2.5)
	radius := math.Min(200, math.Min(half*0.62, deep*0.42))
	ceramic := j.of("ceramic", p.ceramic, stuffPlain)
	middle := mgl64.Vec3{0, deep * 0.52, high}
	ceramic.turned(middle, up(), bowl(radius, 118), 24)
	metal.turned(middle, up(), [][2]float64{{0.1, 13}, {18, 13}, {21, 11}, {22, 9}}, 20)
	j.tap(p, 0, high+205, deep*0.5-10)
	if half > 330 {
		j.bottle(p, half-90, deep*0.35, high, 30, 150)
		j.of("pale", p.clay, stuffPlain).turned(mgl64.Vec3{half - 165, deep * 0.3, high}, up(),
			[][2]float64{{0.1, 0.5}, {29, 0.5}, {32, 3}, {35, 92}, {34, 94}, {32.5, 92}, {30, 8}, {0.1, 8}}, 24)
		j.potted(p, mgl64.Vec3{-half + 105, deep * 0.4, high}, 52, 84, 290, 6, 8)
	}
}

// bottle is a dispenser with a pump.
func (j *joiner) bottle(p palette, x, y, z, radius, high float64) {
	at := mgl64.Vec3{x, y, z}
	j.of("glass", p.glass, stuffPlain).turned(at, up(), [][2]float64{{0.1, 0.5}, {radius - 3, 0.5}, {radius, 3}, {radius, high * 0.72}, {radius * 0.92, high * 0.79}, {radius * 0.6, high * 0.85},
		{radius * 0.38, high * 0.88}, {radius * 0.38, high * 0.93}}, 16)
	m := j.of("metal", p.metal, stuffPlain)
	m.turned(at, up(), [][2]float64{{0.1, high * 0.9}, {radius * 0.45, high * 0.9}, {radius * 0.45, high * 0.99}, {radius * 0.2, high}, {radius * 0.14, high * 1.12}, {0.1, high * 1.12}}, 8)
	m.swept(4, 6, mgl64.Vec3{x, y, z + high*1.12}, mgl64.Vec3{x - 12, y + 18, z + high*1.12}, mgl64.Vec3{x - 22, y + 32, z + high*1.08})
}

// mostBasinMM is how high a basin is at most that hangs on the wall; a higher one stands in a cabinet. Common practice, no source.
const mostBasinMM = 350

// washstand is a basin on a cabinet that stands on the floor: a plinth, two doors and the basin over them.
func (j *joiner) washstand(p palette, high float64) {
	const basinMM, plinthMM, setBackMM, frontMM, gapMM = 120, 80, 40, 19, 3
	half, deep, top := j.o.WidthMM/2-12, j.o.DepthMM-14, high-basinMM
	wood, metal := j.of("wood", p.wood, stuffWood), j.of("metal", p.metal, stuffPlain)
	wood.block(mgl64.Vec3{-half + 5, 0, 0}, mgl64.Vec3{half - 5, deep - setBackMM, plinthMM}, 2)
	wood.block(mgl64.Vec3{-half, 0, plinthMM}, mgl64.Vec3{half, deep - frontMM - 2, top}, 2)
	for _, side := range []float64{-1, 1} {
		in, out := side*gapMM/2, side*half
		wood.block(mgl64.Vec3{math.Min(in, out), deep - frontMM, plinthMM + gapMM}, mgl64.Vec3{math.Max(in, out), deep, top - gapMM}, 1.5)
		x := side * 34
		metal.swept(5, 10, mgl64.Vec3{x, deep + 24, top - 220}, mgl64.Vec3{x, deep + 24, top - 70})
		for _, z := range []float64{top - 205, top - 85} {
			metal.swept(4, 8, mgl64.Vec3{x, deep - 2, z}, mgl64.Vec3{x, deep + 24, z})
		}
	}
	j.basin(p, top, high)
}

// basin hangs on the wall, or stands on a cabinet, between two levels: a block with rounded edges, the bowl let into it, a tap over it.
func (j *joiner) basin(p palette, low, high float64) {
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	ceramic := j.of("ceramic", p.ceramic, stuffPlain)
	// A rim round an oval bowl, and the shell under it.
	a, b := half-45, deep/2-40
	middle := mgl64.Vec3{0, deep / 2, high}
	const sides = 40
	edge := func(k int, under bool) mgl64.Vec3 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / sides)
		// A square with round corners: what is further out along an axis is kept.
		const power = 0.35
		x := half * math.Copysign(math.Pow(math.Abs(c), power), c)
		y := deep / 2 * math.Copysign(math.Pow(math.Abs(s), power), s)
		if under {
			return mgl64.Vec3{x * 0.9, deep/2 + y*0.9 - deep*0.04, low}
		}
		return mgl64.Vec3{x, deep/2 + y, high}
	}
	for k := range sides {
		ceramic.quad(edge(k, true), edge(k+1, true), edge(k+1, false), edge(k, false))
		ceramic.triangle([3]mgl64.Vec3{edge(k+1, true), edge(k, true), {0, deep / 2, low}}, [3]mgl64.Vec3{{0, 0, -1}, {0, 0, -1}, {0, 0, -1}})
		s0, c0 := math.Sincos(2 * math.Pi * float64(k) / sides)
		s1, c1 := math.Sincos(2 * math.Pi * float64(k+1) / sides)
		ceramic.quad(edge(k, false), edge(k+1, false), middle.Add(mgl64.Vec3{a * c1, b * s1, 0}), middle.Add(mgl64.Vec3{a * c0, b * s0, 0}))
	}
	bottom := math.Min((high-low)*0.8, 110)
	ceramic.sheet(sides, 6, func(u, v float64) mgl64.Vec3 {
		s, c := math.Sincos(-2 * math.Pi * u)
		down, in := math.Sincos(v * math.Pi / 2)
		return middle.Add(mgl64.Vec3{a * c * in, b * s * in, -bottom * down})
	})
	m := j.of("metal", p.metal, stuffPlain)
	m.turned(mgl64.Vec3{0, deep / 2, high - bottom}, up(), [][2]float64{{0.1, 4}, {19, 4}, {22, 2}, {23, 0}}, 20)
	j.tap(p, 0, high+150, deep*0.5-10)
	// Its trap, of the metal of the tap.
	if low == 0 {
		m.turned(mgl64.Vec3{0, deep / 2, -190}, up(), [][2]float64{{0.1, 0}, {34, 0}, {36, 3}, {36, 95}, {33, 100}, {17, 102}, {17, 190}}, 20)
		m.swept(16, 12, mgl64.Vec3{0, deep / 2, -110}, mgl64.Vec3{0, 0, -110})
	}
}

// toilet stands on the floor, its cistern in the wall's casing behind it: a pan, a seat and a lid.
func (j *joiner) toilet(p palette, high float64) {
	const seatMM, cisternMM, seatThickMM = 400, 175, 18
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	ceramic := j.of("ceramic", p.ceramic, stuffPlain)
	cistern := math.Min(cisternMM, deep*0.3)
	top := math.Max(high, seatMM+60)
	ceramic.block(mgl64.Vec3{-half, 0, seatMM - 20}, mgl64.Vec3{half, cistern, top - 12}, 22)
	ceramic.block(mgl64.Vec3{-half - 4, 0, top - 22}, mgl64.Vec3{half + 4, cistern + 5, top}, 9)
	j.of("metal", p.metal, stuffPlain).turned(mgl64.Vec3{0, cistern / 2, top}, up(), [][2]float64{{26, 0}, {26, 4}, {24, 6}, {0.1, 6}}, 24)
	// The outline of the seat at a share of its size: straight at the back, round in front.
	outline := func(u, share float64) (x, y float64) {
		s, c := math.Sincos(2 * math.Pi * u)
		front := deep - cistern
		y = cistern + front*0.42 + share*c*front*0.58
		if c < 0 {
			y = cistern + front*0.42 + share*c*front*0.40
		}
		return -share * half * 0.97 * math.Copysign(math.Pow(math.Abs(s), 0.8), s), y
	}
	ceramic.sheet(40, 10, func(u, v float64) mgl64.Vec3 {
		// Narrow at the floor, out under the seat.
		share := 0.62 + 0.36*math.Pow(v, 2.2)
		x, y := outline(u, share)
		return mgl64.Vec3{x, y - (1-v)*18, v * seatMM}
	})
	lid := j.of("lid", p.ceramic, stuffPlain)
	for k := range 2 {
		low := float64(seatMM) + float64(k)*(seatThickMM+2) + 2
		share := 1.0 + 0.01*float64(k)
		lid.sheet(40, 1, func(u, v float64) mgl64.Vec3 {
			x, y := outline(u, share)
			return mgl64.Vec3{x, y, low + v*seatThickMM}
		})
		lid.sheet(40, 1, func(u, v float64) mgl64.Vec3 {
			x, y := outline(u, share*(1-v*0.999))
			return mgl64.Vec3{x, y, low + seatThickMM + 3*v}
		})
	}
}

// radiator is a ladder of tubes between two uprights, with a towel's room between its rows.
func (j *joiner) radiator(p palette, high float64) {
	const tubeMM, uprightMM, offMM = 11, 15, 30
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	m := j.of("lacquer", p.lacquer, stuffPlain)
	if j.o.Other {
		m = j.of("metal", p.metal, stuffPlain)
	}
	if j.o.WidthMM > 2*high { // a panel that lies
		m.block(mgl64.Vec3{-half, deep * 0.35, 0}, mgl64.Vec3{half, deep, high}, 10)
		return
	}
	y := math.Max(deep-uprightMM-tubeMM, uprightMM+2)
	for _, x := range []float64{-half + uprightMM, half - uprightMM} {
		m.swept(uprightMM, 12, mgl64.Vec3{x, y, 0}, mgl64.Vec3{x, y, high})
		for _, z := range []float64{offMM * 2, high - offMM*2} {
			m.swept(9, 8, mgl64.Vec3{x, 0, z}, mgl64.Vec3{x, y, z})
		}
	}
	const everyMM = 46
	rows := int((high - 2*offMM) / everyMM)
	for k := range rows + 1 {
		if k%7 == 6 {
			continue // where towels go in
		}
		z := offMM + float64(k)*everyMM
		m.swept(tubeMM, 8, mgl64.Vec3{-half + uprightMM, y, z}, mgl64.Vec3{half - uprightMM, y, z})
	}
}

func (j *joiner) cupboard(p palette, high float64) {
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	body := j.of("wood", p.wood, stuffWood)
	body.block(mgl64.Vec3{-half, 0, 0}, mgl64.Vec3{half, deep - 20, high}, 2)
	m := j.of("metal", p.metal, stuffPlain)
	doors := 1
	if j.o.WidthMM > 550 {
		doors = 2
	}
	rows := 1
	if high > 1300 {
		rows = 2
	}
	for i := range doors {
		for k := range rows {
			w, h := j.o.WidthMM/float64(doors), high/float64(rows)
			low, top := mgl64.Vec3{-half + float64(i)*w + 2, deep - 19, float64(k)*h + 2}, mgl64.Vec3{-half + float64(i+1)*w - 2, deep - 2, float64(k+1)*h - 2}
			body.block(low, top, 1.5)
			x := top[0] - 30
			if i == 1 {
				x = low[0] + 22
			}
			m.block(mgl64.Vec3{x, deep - 2, (low[2]+top[2])/2 - 60}, mgl64.Vec3{x + 8, deep + 14, (low[2]+top[2])/2 + 60}, 2)
		}
	}
}

// mirror is round, or else square, in a shallow tray of metal.
func (j *joiner) mirror(p palette, high float64) {
	r, deep := math.Min(j.o.WidthMM, high)/2, j.o.DepthMM
	if j.o.Other {
		const rimMM = 6
		glass, low, top := j.of("glass", p.mirror, stuffMirror), high/2-r+rimMM, high/2+r-rimMM
		glass.quad(mgl64.Vec3{-r + rimMM, deep - 4, low}, mgl64.Vec3{r - rimMM, deep - 4, low}, mgl64.Vec3{r - rimMM, deep - 4, top}, mgl64.Vec3{-r + rimMM, deep - 4, top})
		rim := j.of("metal", p.metal, stuffPlain)
		rim.block(mgl64.Vec3{-r, 0, high/2 - r}, mgl64.Vec3{r, deep - 5, high/2 + r}, 1)
		for _, side := range []float64{-1, 1} {
			at := side * (r - rimMM/2)
			rim.block(mgl64.Vec3{at - rimMM/2, 0, high/2 - r}, mgl64.Vec3{at + rimMM/2, deep, high/2 + r}, 1.5)
			rim.block(mgl64.Vec3{-r, 0, high/2 + at - rimMM/2}, mgl64.Vec3{r, deep, high/2 + at + rimMM/2}, 1.5)
		}
		return
	}
	// It stands off the wall, for the light behind it.
	out, middle, off := mgl64.Vec3{0, 1, 0}, mgl64.Vec3{0, 0, high / 2}, deep/2
	j.of("glass", p.mirror, stuffMirror).turned(middle.Add(out.Mul(deep-5)), out, [][2]float64{{r - 5, 0}, {0.1, 0}}, 48)
	j.of("metal", p.metal, stuffPlain).turned(middle, out, [][2]float64{{0.1, off}, {r - 2, off}, {r, off + 2}, {r, deep - 2}, {r - 1.5, deep}, {r - 5, deep}, {r - 5.5, deep - 4}}, 48)
}

// towels are two, of different lengths, over a rail.
func (j *joiner) towels(p palette, high float64) {
	const railMM, offMM = 9, 68
	half := j.o.WidthMM / 2
	m := j.of("metal", p.metal, stuffPlain)
	z := high - 20
	m.swept(railMM, 12, mgl64.Vec3{-half, offMM, z}, mgl64.Vec3{half, offMM, z})
	for _, x := range []float64{-half + 25, half - 25} {
		m.swept(7, 8, mgl64.Vec3{x, 0, z}, mgl64.Vec3{x, offMM, z})
		m.turned(mgl64.Vec3{x, 0, z}, mgl64.Vec3{0, 1, 0}, [][2]float64{{20, 0}, {20, 6}, {18, 8}, {7, 8}}, 20)
	}
	wide := j.o.WidthMM - 150
	if j.o.Other {
		p.accent, p.pale = p.pale, p.accent
	}
	j.hung(j.of("accent", p.accent, stuffCloth), -wide/2-10, wide*0.62, offMM, z, z-40, z-140, railMM+2, 0)
	j.hung(j.of("pale", p.pale, stuffCloth), wide/2-wide*0.36+10, wide*0.36, offMM, z, z*0.62, z*0.5, railMM+3, 2)
}

// hung is a towel over a rail at x, so wide, its front and back so long: folded once, so that it has a thickness, with a
// hem and a fold or two.
func (j *joiner) hung(f *form, x, wide, y, z, front, back, radius, phase float64) {
	const thickMM = 9
	whole := front + back + math.Pi*radius
	wave := func(u, drop float64) float64 {
		k := math.Min(1, drop/260)
		return (6*math.Sin(u*2*math.Pi*1.4+phase) + 2.4*math.Sin(u*2*math.Pi*3.7+1+phase+0.002*drop)) * (0.15 + 0.85*k)
	}
	at := func(u, length, off float64) mgl64.Vec3 {
		r := radius + off
		p := mgl64.Vec3{x + u*wide, 0, 0}
		switch {
		case length < back:
			drop := back - length
			p[1], p[2] = y-r+0.35*wave(u+0.3, drop), z-drop
			p[1] = math.Max(p[1], 6)
		case length < back+math.Pi*radius:
			s, c := math.Sincos((length - back) / radius)
			p[1], p[2] = y-r*c, z+r*s
		default:
			drop := length - back - math.Pi*radius
			p[1], p[2] = y+r+math.Abs(wave(u, drop))*0.6+0.006*drop, z-drop
			share := drop / front
			p[0] += (0.5 - u) * 10 * share
			p[2] += 3 * math.Sin(u*5+phase) * share
		}
		return p
	}
	// All round: the outside from hem to hem, and back along the inside.
	around := func(v float64) (length, off float64) {
		const hem = 0.012
		switch {
		case v < 0.5-hem:
			return v / (0.5 - hem) * whole, thickMM
		case v < 0.5+hem:
			return whole, thickMM * (0.5 + hem - v) / (2 * hem)
		default:
			return (1 - v) / (0.5 - hem) * whole, 0
		}
	}
	f.sheet(10, 40, func(u, v float64) mgl64.Vec3 {
		length, off := around(v)
		return at(u, math.Max(0, length), off)
	})
	for _, side := range []float64{0, 1} {
		f.sheet(1, 24, func(u, v float64) mgl64.Vec3 { return at(side, v*whole, u*thickMM) })
	}
}

// stool has a round seat, three legs and folded towels.
func (j *joiner) stool(p palette) {
	const seatMM, towelMM = 450, 56
	wood := j.of("wood", p.wood, stuffWood)
	if j.o.Other {
		wood = j.of("painted", p.lacquer, stuffPlain)
	}
	r := j.o.WidthMM/2 - 4
	y := j.o.DepthMM / 2
	wood.turned(mgl64.Vec3{0, y, seatMM - 32}, up(), [][2]float64{{0.1, 0}, {r - 14, 0}, {r - 4, 5}, {r, 16}, {r - 4, 28}, {r - 10, 32}, {0.1, 32}}, 40)
	for k := range 3 {
		s, c := math.Sincos(float64(k)*2*math.Pi/3 + 0.5)
		wood.swept(14, 12, mgl64.Vec3{0.62 * r * c, y + 0.62*r*s, seatMM - 30}, mgl64.Vec3{0.9 * r * c, y + 0.9*r*s, 0})
	}
	j.folded(j.of("pale", p.pale, stuffCloth), y, seatMM, 230, 170, towelMM)
	j.folded(j.of("accent", p.accent, stuffCloth), y, seatMM+towelMM, 220, 164, 48)
}

// folded is a towel folded twice: two soft layers.
func (j *joiner) folded(f *form, y, z, wide, deep, high float64) {
	for k := range 2 {
		low := z + float64(k)*high/2
		f.bentBlock(mgl64.Vec3{-wide / 2, y - deep/2, low}, mgl64.Vec3{wide / 2, y + deep/2, low + high/2*1.03}, high/4*0.96, 2, func(q mgl64.Vec3) mgl64.Vec3 {
			q[0] += 2 * math.Sin(q[1]/40+float64(k)+z)
			q[1] += 2 * math.Sin(q[0]/45+2*float64(k)+z)
			q[2] += 1.2 * math.Sin(q[0]/31+float64(k)*2)
			return q
		})
	}
}

func (j *joiner) mat(p palette, high float64) {
	half := j.o.WidthMM / 2
	if j.o.Other {
		p.mat = p.pale
	}
	j.of("cloth", p.mat, stuffCloth).bentBlock(mgl64.Vec3{-half, 0, 0}, mgl64.Vec3{half, j.o.DepthMM, high - 1}, 5.5, 4, func(q mgl64.Vec3) mgl64.Vec3 {
		if q[2] > high/2 {
			q[2] += 0.9 * math.Sin(q[0]/60) * math.Sin(q[1]/43)
		}
		return q
	})
}

// plant stands in a pot on the floor.
func (j *joiner) plant(p palette, high float64) {
	const potShare = 0.27
	pot := high * potShare
	if j.o.Other { // low and broad
		j.potted(p, mgl64.Vec3{0, j.o.DepthMM / 2, 0}, j.o.WidthMM*0.38, pot*0.8, high*0.36, 16, 6)
		return
	}
	j.potted(p, mgl64.Vec3{0, j.o.DepthMM / 2, 0}, j.o.WidthMM*0.38, pot, high-pot, 9, 9)
}

// potted is a plant in a pot of a radius and a height: stems that lean out, with leaves along them.
func (j *joiner) potted(p palette, at mgl64.Vec3, radius, pot, high float64, stems, leaves int) {
	j.of("pot", p.clay, stuffPlain).turned(at, up(), [][2]float64{{0.1, 0.5}, {radius * 0.72, 0.5}, {radius * 0.78, 4}, {radius, pot}, {radius * 0.97, pot + 2}, {radius * 0.92, pot}, {radius * 0.86, pot * 0.88}}, 28)
	j.of("soil", p.soil, stuffPlain).turned(at, up(), [][2]float64{{radius * 0.9, pot * 0.87}, {0.1, pot * 0.89}}, 16)
	// How far a leaf may reach: the pot's rectangle is all that is kept free.
	reach := radius * 1.25
	stem, leaf := j.of("stem", p.stem, stuffPlain), j.of("leaf", p.leaf, stuffLeaf)
	const golden = 2.39996
	share := func(k int, by, off float64) float64 { _, f := math.Modf(float64(k)*by + off); return f }
	for k := range stems {
		s, c := math.Sincos(float64(k)*golden + 0.7)
		lean := reach * (0.15 + 0.55*share(k, 0.618, 0))
		tall := high * (0.6 + 0.36*share(k, 0.37, 0.2))
		place := func(t float64) mgl64.Vec3 {
			return at.Add(mgl64.Vec3{c * lean * t * t, s * lean * t * t, pot*0.88 + tall*t})
		}
		var path []mgl64.Vec3
		for i := range 6 {
			path = append(path, place(float64(i)/5))
		}
		stem.swept(math.Max(1.4, radius*0.018), 5, path...)
		for i := range leaves {
			t := 0.2 + 0.8*float64(i+1)/float64(leaves)
			turn := float64(k)*golden + float64(i)*2.1
			ls, lc := math.Sincos(turn)
			long := math.Min(high*0.22, reach*0.75) * (1.1 - 0.45*t)
			blade(leaf, place(t), mgl64.Vec3{lc * 0.85, ls * 0.85, 0.53}, long, long*0.46)
		}
	}
}

// blade is a leaf that droops, a little folded along its middle.
func blade(f *form, from, direction mgl64.Vec3, long, wide float64) {
	side := direction.Cross(up()).Normalize()
	steps := 5
	if long < 90 {
		steps = 3
	}
	f.sheet(steps, 2, func(u, v float64) mgl64.Vec3 {
		half := wide * math.Sin(math.Pi*math.Pow(u, 0.75)) / 2
		q := from.Add(direction.Mul(long * u))
		q[2] -= 0.3 * u * u * long
		k := 2*v - 1
		q = q.Add(side.Mul(half * k))
		q[2] += math.Abs(k) * half * 0.35
		return q
	})
}

// pendant is a globe on a cord.
func (j *joiner) pendant(p palette, high float64) {
	r := j.o.WidthMM / 2
	at := mgl64.Vec3{0, j.o.DepthMM / 2, r}
	var profile [][2]float64
	const steps = 14
	for k := range steps + 1 {
		s, c := math.Sincos(math.Pi * float64(k) / steps)
		profile = append(profile, [2]float64{math.Max(0.1, r*s), -r * c})
	}
	j.of("globe", p.globe, stuffGlow).turned(at, up(), profile, 28)
	m := j.of("metal", p.metal, stuffPlain)
	m.turned(at, up(), [][2]float64{{r * 0.38, r * 0.92}, {r * 0.38, r * 1.15}, {r * 0.28, r * 1.35}, {6, r * 1.42}, {3, r * 1.5}}, 20)
	hangs, thick := j.of("cord", p.cord, stuffPlain), 2.2
	if j.o.Other { // on a rod
		hangs, thick = m, 7
	}
	hangs.swept(thick, 8, at.Add(mgl64.Vec3{0, 0, r * 1.45}), mgl64.Vec3{0, j.o.DepthMM / 2, high - 18})
	m.turned(mgl64.Vec3{0, j.o.DepthMM / 2, high}, up(), [][2]float64{{0.1, -20}, {40, -20}, {45, -16}, {45, 0}}, 24)
}

// niche is what lies in it: a metal edge round it and bottles; or else a shelf with the same on it.
func (j *joiner) niche(p palette, high float64) {
	const edgeMM, proudMM = 6, 2
	half, deep := j.o.WidthMM/2, j.o.DepthMM
	metal := j.of("metal", p.metal, stuffPlain)
	z, y := 0.0, deep*0.5
	if j.o.Other {
		z = high
		metal.block(mgl64.Vec3{-half, 0, high - 8}, mgl64.Vec3{half, deep, high}, 2)
		metal.block(mgl64.Vec3{-half, deep - 4, high - 8}, mgl64.Vec3{half, deep, high + 14}, 1.5)
		metal.block(mgl64.Vec3{-half, 0, 0}, mgl64.Vec3{half, 4, high}, 1)
	} else {
		from, to := deep-8, deep+proudMM
		metal.block(mgl64.Vec3{-half, from, 0}, mgl64.Vec3{-half + edgeMM, to, high}, 0.8)
		metal.block(mgl64.Vec3{half - edgeMM, from, 0}, mgl64.Vec3{half, to, high}, 0.8)
		metal.block(mgl64.Vec3{-half, from, 0}, mgl64.Vec3{half, to, edgeMM}, 0.8)
		metal.block(mgl64.Vec3{-half, from, high - edgeMM}, mgl64.Vec3{half, to, high}, 0.8)
		z = edgeMM
	}
	j.bottle(p, -half*0.62, y, z, 31, 180)
	j.bottle(p, -half*0.62+78, y-4, z, 31, 180)
	tube := [][2]float64{{0.1, 0.5}, {23, 0.5}, {25, 3}, {25, 112}, {22, 120}, {14, 122}, {14, 138}, {12, 140}, {0.1, 140}}
	j.of("pale", p.lacquer, stuffPlain).turned(mgl64.Vec3{-half*0.62 + 152, y + 3, z}, up(), tube, 14)
	if half > 200 {
		dish := [][2]float64{{0.1, 0.5}, {30, 0.5}, {41, 9}, {42, 11}, {39, 11}, {29, 4}, {0.1, 4}}
		j.of("clay", p.clay, stuffPlain).turned(mgl64.Vec3{half * 0.55, y, z}, up(), dish, 16)
		j.of("soap", p.stone, stuffPlain).block(mgl64.Vec3{half*0.55 - 27, y - 17, z + 5}, mgl64.Vec3{half*0.55 + 27, y + 17, z + 25}, 6)
	}
}

func (j *joiner) vase(p palette, high float64) {
	k := high / 222
	var profile [][2]float64
	for _, q := range [][2]float64{{0.1, 0.5}, {34, 0.5}, {40, 4}, {58, 50}, {62, 90}, {54, 130}, {30, 165}, {20, 190}, {21, 214}, {25, 222}, {22, 222}, {17, 212}, {16, 190}} {
		profile = append(profile, [2]float64{q[0] * k, q[1] * k})
	}
	look := p.accent
	if j.o.Other {
		look = p.clay
	}
	j.of("clay", look, stuffPlain).turned(mgl64.Vec3{0, j.o.DepthMM / 2, 0}, up(), profile, 36)
}

// furnish puts a room's furniture into the scene.
func (s *Scene) furnish(r *geometry.Result, old map[string]*Body) {
	p := paletteOf(r)
	for i, o := range s.furnished.Objects {
		s.pieces(fmt.Sprintf("%s-%d", o.Kind, i), o.Wall, r, placed(o, p), func() []piece { return piecesOf(o, p) }, old)
	}
}

// madeOf is all that the pieces of an object depend on, but for where it stands.
type madeOf struct {
	object  furnish.Object
	palette palette
}

// made is what pieces are made of, and a place that all of them move along with.
type made struct {
	of any
	at mgl64.Vec3
	// vertices are the faces' as they were made, at that place: moved pieces begin from these again.
	vertices []float32
}

// placed is what pieces of an object depend on, which move along with it.
func placed(o furnish.Object, p palette) made {
	at := o.At.Vec3(0)
	o.At = plan.Point{}
	return made{of: madeOf{o, p}, at: at}
}

// fromWall is what pieces that move along with a wall depend on of it, with what else they do.
func fromWall(w *layout.Wall, of ...any) made {
	return made{of: [2]any{[3]any{w.Along, w.Outward, w.ThicknessMM}, of}, at: flat(w.A)}
}

// pieces adds bodies that dress the picture, at a wall or at none, below nought; those of the scene before, moved along
// with their place, where they were made of the same.
func (s *Scene) pieces(name string, wall int, r *geometry.Result, from made, make func() []piece, old map[string]*Body) {
	id := func(k int) string { return fmt.Sprintf("dressing-%s-%d", name, k) }
	add := func(b Body) {
		if wall >= 0 {
			w := &r.Layout.Walls[wall]
			b.outward, b.face = flat(w.Outward), flat(w.A)
		}
		s.Bodies = append(s.Bodies, b)
	}
	if first := old[id(0)]; first != nil && reflect.DeepEqual(first.made.of, from.of) {
		for k := 0; old[id(k)] != nil; k++ {
			add(old[id(k)].movedTo(from.at))
		}
		return
	}
	n := 0
	for _, p := range make() {
		if len(p.form.vertices) == 0 {
			continue
		}
		b := Body{Part: assembly.Part{ID: id(n), Stage: buildup.StageTile}, surface: p.look, stuff: p.stuff, dressing: true, open: true, thin: p.thin,
			made: from, vertices: p.form.vertices, box: p.form.box, standsAt: from.at}
		b.made.vertices = p.form.vertices
		b.tile.origin, b.tile.u, b.tile.v = p.form.origin, p.form.x, p.form.z // the way of its grain
		add(b)
		n++
	}
}

// object is what a body is a piece of, where it stands.
func (b *Body) object() (o furnish.Object, ok bool) {
	of, ok := b.made.of.(madeOf)
	o = of.object
	o.At = plan.Point{b.standsAt[0], b.standsAt[1]}
	return o, ok
}

// movedTo is a body of pieces at another place.
func (b *Body) movedTo(at mgl64.Vec3) Body {
	moved := *b
	if at == b.standsAt {
		return moved
	}
	by := at.Sub(b.standsAt)
	moved.standsAt, moved.tile.origin = at, b.tile.origin.Add(by)
	moved.box = solid.Box{Low: b.box.Low.Add(by), High: b.box.High.Add(by)}
	by = at.Sub(b.made.at)
	moved.vertices = slices.Clone(b.made.vertices)
	const perVertex = 6
	for i := 0; i < len(moved.vertices); i += perVertex {
		for k := range 3 {
			moved.vertices[i+k] = float32(float64(b.made.vertices[i+k]) + by[k])
		}
	}
	return moved
}
