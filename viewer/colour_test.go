package viewer

import (
	"image"
	"image/color"
	"math"
	"strconv"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/job"
	"underfall/viewer/trace"
)

// lab is a colour as an eye tells it apart, CIE 1976 (L*, a*, b*) by the white of daylight D65.
type lab [3]float64

// labOf is that of linear light of the primaries of ITU-R BT.709, by the matrix of IEC 61966-2-1 and the formulas of CIE 15.
func labOf(c [3]float64) lab {
	x := (0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505
	y := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	z := (0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.0890
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return lab{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

// decoded is a colour of the screen in linear light, by IEC 61966-2-1 (sRGB).
func decoded(c color.NRGBA) (out [3]float64) {
	for k, v := range [3]uint8{c.R, c.G, c.B} {
		if x := float64(v) / 255; x <= 0.04045 {
			out[k] = x / 12.92
		} else {
			out[k] = math.Pow((x+0.055)/1.055, 2.4)
		}
	}
	return out
}

func (a lab) from(b lab) float64 { return math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2]) }

// chroma and hue, in degrees.
func (a lab) chroma() float64 { return math.Hypot(a[1], a[2]) }
func (a lab) hueDeg() float64 { return math.Atan2(a[2], a[1]) * 180 / math.Pi }

// brightnesses are how bright white comes out in rooms, as exposed and before toning.
func brightnesses() []float32 { return []float32{0.9, 1.5} }

// measured is a plate of a material as a colour is measured, lit from 45° and seen square on (CIE 15, 45°:0°): its mean
// linear light as a share of that of a white plate, and its means on screens of the brightnesses, in linear light again.
func measured(t *testing.T, r *Renderer, m trace.Material) (light [3]float64, screens [][3]float64) {
	t.Helper()
	const side, samples = 40, 16
	draw := func(m trace.Material, white [3]float64) (mean [3]float64, screens [][3]float64) {
		lamp := trace.Lamp{Centre: mgl32.Vec3{0, -40000, 40000}, U: mgl32.Vec3{3000, 0, 0}, Radiance: mgl32.Vec3{100, 100, 100}}
		sky := trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}
		s := &trace.Scene{Materials: []trace.Material{m}, Triangles: plate(m, 0), Lamps: []trace.Lamp{lamp}, Sky: sky}
		room := r.tracer.Load(s, nil, mgl32.Vec3{})
		defer room.Free()
		var p trace.Picture
		defer p.Free()
		v := trace.View{Eye: mgl32.Vec3{0, -3000, 0}, Forward: mgl32.Vec3{0, 1, 0},
			Right: mgl32.Vec3{0.4, 0, 0}, Up: mgl32.Vec3{0, 0, 0.4}, NearMM: 1}
		for range samples {
			if err := r.tracer.Sample(&p, room, v, side, side, side, 0); err != nil {
				t.Fatal(err)
			}
		}
		for i, l := range p.Light() {
			if i%4 < 3 {
				mean[i%4] += float64(l) / (side * side)
			}
		}
		if white[0] == 0 {
			return mean, nil
		}
		for done := false; !done; {
			var err error
			if done, err = r.tracer.Smooth(&p); err != nil {
				t.Fatal(err)
			}
		}
		for _, bright := range brightnesses() {
			img := image.NewRGBA(image.Rect(0, 0, side, side))
			e := trace.Exposure{Factor: bright / float32(white[1]), White: mgl32.Vec3{1, 1, 1}}
			if err := r.tracer.Show(&p, e, trace.Inks{}, [4]float32{0, 0, 0, 1}, img); err != nil {
				t.Fatal(err)
			}
			var toned [3]float64
			for i := 0; i < len(img.Pix); i += 4 {
				c := decoded(color.NRGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 255})
				for k := range toned {
					toned[k] += c[k] / (side * side)
				}
			}
			screens = append(screens, toned)
		}
		return mean, screens
	}
	white, _ := draw(trace.Material{Colour: mgl32.Vec3{1, 1, 1}, Roughness: 1}, [3]float64{})
	light, screens = draw(m, white)
	for k := range light {
		light[k] /= white[k]
	}
	return light, screens
}

// A tile of every colour, surface, sheen and size has, in neutral light and before toning, a colour within ΔE 3 (CIE
// 1976) of what is stated; and on the screen, as bright as rooms come out, its hue is within 3° of that. What is nearly
// grey has no hue.
func TestTilesKeepTheirColour(t *testing.T) {
	r := Open(t)
	const mostOff, mostTurnDeg, grey = 3, 3, 6
	worstOff, worstTurn := 0.0, 0.0
	defer func() { t.Logf("at most ΔE %.2f and %.2f° off", worstOff, worstTurn) }()
	for _, c := range job.Colours() {
		v, err := strconv.ParseUint(c.Value[1:], 16, 32)
		if err != nil {
			t.Fatal(err)
		}
		stated := labOf(decoded(color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}))
		for _, kind := range []job.Surface{job.SurfacePlain, job.SurfaceStone, job.SurfaceTerrazzo} {
			for _, sheen := range []job.Sheen{job.SheenMatt, job.SheenSatin, job.SheenGloss} {
				for _, sideMM := range []float64{100, 600} {
					finish := job.Finish{Colour: c.Value, Surface: kind, Sheen: sheen}
					tile := tiling{bond: 1, length: sideMM + 2, width: sideMM + 2, joint: 2,
						grout: parseColour(c.Value), surface: surfaceNumber(kind), u: mgl64.Vec3{1, 0, 0}, v: up()}
					b := Body{surface: surfaceOf(assembly.Part{Finish: &finish}, job.Style{}), tile: tile}
					m := Frame{Scene: &Scene{}}.tracedMaterial(b)
					light, screens := measured(t, r, m)
					got := labOf(light)
					off := got.from(stated)
					if worstOff = max(worstOff, off); off > mostOff {
						t.Errorf("%s, %s, %s, %v mm: %.1f, stated %.1f: ΔE %.2f", c.Value, kind, sheen, sideMM, got, stated, off)
					}
					for i, shown := range screens {
						seen := labOf(shown)
						turn := math.Abs(math.Remainder(seen.hueDeg()-stated.hueDeg(), 360))
						if stated.chroma() <= grey {
							continue
						}
						if worstTurn = max(worstTurn, turn); turn > mostTurnDeg {
							t.Errorf("%s, %s, %s, %v mm, %v bright: on the screen its hue is %.1f° off, chroma %.1f",
								c.Value, kind, sheen, sideMM, brightnesses()[i], turn, seen.chroma())
						}
					}
				}
			}
		}
	}
}
