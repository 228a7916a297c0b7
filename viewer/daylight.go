package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/sun"
	"underfall/viewer/trace"
)

// orientation is how a room lies to the sun.
type orientation struct {
	latitudeDeg float64
	northDeg    float64 // clockwise from straight up in plan
}

// orient finds how the room lies. Where it is not known where north is, the room is taken to lie so that at the usual hour
// the sun stands over the shoulder of who looks in by the first window, turned to the shower.
func (s *Scene) orient(r *geometry.Result) {
	s.lies.latitudeDeg = sun.LatitudeDeg(r.Settled.Region)
	if n := r.Settled.Room.North; n != nil {
		s.lies.northDeg = n.Deg
		return
	}
	if len(s.daylight) == 0 {
		return
	}
	w := s.daylight[0]
	in := w.u.Cross(w.v).Normalize()
	aim := s.centre.Sub(w.centre)
	aim[2] = 0
	to := aim.Normalize().Add(in.Mul(0.6)).Mul(-1)
	up := math.Atan2(to.X(), to.Y()) * 180 / math.Pi
	s.lies.northDeg = up - sun.Equinox(job.UsualPicture().Hour, s.lies.latitudeDeg).FromNorthDeg
}

// toSun is the direction to the sun at an hour of the equinox, and the sine of how high it stands.
func (o orientation) toSun(hour float64) (to mgl64.Vec3, high float64) {
	at := sun.Equinox(hour, o.latitudeDeg)
	turn, up := (o.northDeg+at.FromNorthDeg)*math.Pi/180, at.HighDeg*math.Pi/180
	return mgl64.Vec3{math.Sin(turn) * math.Cos(up), math.Cos(turn) * math.Cos(up), math.Sin(up)}, math.Sin(up)
}

// lampsOn tells whether the lamps are on: in the evening, and by day in a room without a window.
func (s *Scene) lampsOn(k job.LightKind) bool { return k == job.LightEvening || len(s.daylight) == 0 }

// light puts sky, sun and lamps in; closed tells that the windows are holes in the walls.
func (s *Scene) light(l job.Light, closed bool, to *trace.Scene) {
	for _, o := range s.daylight {
		if !closed {
			o = o.inFront()
		}
		to.Windows = append(to.Windows, trace.Window{Centre: narrow(o.centre), U: narrow(o.u), V: narrow(o.v)})
	}
	if s.lampsOn(l.Kind) {
		to.Lamps = s.tracedLamps()
	}
	to.Outside = mgl32.Vec3{0.9, 0.93, 0.97}
	switch l.Kind {
	case job.LightEvening:
		to.Sky = trace.Sky{High: mgl32.Vec3{0.09, 0.15, 0.32}, Low: mgl32.Vec3{0.27, 0.27, 0.38}, Ground: mgl32.Vec3{0.02, 0.025, 0.03}}
		to.Outside = mgl32.Vec3{0.25, 0.22, 0.18}
	case job.LightOvercast:
		// A third as bright over the horizon as overhead, as the standard overcast sky of CIE S 011 (ISO 15469) is.
		const overhead = 9
		to.Sky = trace.Sky{High: mgl32.Vec3{0.97, 1, 1.04}.Mul(overhead), Low: mgl32.Vec3{0.98, 1, 1.03}.Mul(overhead / 3),
			Ground: mgl32.Vec3{0.44, 0.47, 0.38}.Mul(1.8)}
	default:
		to.Sky = s.clear(l.Hour)
	}
	if to.Sky.ToSun == (mgl32.Vec3{}) {
		to.Sky.ToSun = mgl32.Vec3{0, 0, 1}
	}
}

// clear is a sky without clouds at an hour.
//
// Method: what the air lets through falls with the length of the way through it, which is one over the sine of the sun's
// height (Young and Irvine 1967 add little from 5 degrees up); red passes best. The strengths are those of a picture, in
// which a sun as bright as it is would leave the rest of the room black.
func (s *Scene) clear(hour float64) trace.Sky {
	to, high := s.lies.toSun(hour)
	const usualHigh = 0.585 // the sine of the height that the strengths below hold at
	strong := float32(min(1.2, high/usualHigh))
	low := float32(max(0, 1-high/0.35))
	sky := 0.4 + 0.6*strong
	blend := func(a, b mgl32.Vec3) mgl32.Vec3 { return a.Mul(1 - low).Add(b.Mul(low)).Mul(sky) }
	out := trace.Sky{High: blend(mgl32.Vec3{7.2, 8.4, 10.1}, mgl32.Vec3{6, 7.6, 10}),
		Low:    blend(mgl32.Vec3{10, 10.2, 10.4}, mgl32.Vec3{13, 10.4, 7.6}),
		Ground: mgl32.Vec3{0.44, 0.48, 0.36}.Mul(6 * sky)}
	if high <= 0 || len(s.daylight) == 0 {
		return out
	}
	for k, thick := range [3]float64{0.30, 0.39, 0.545} {
		const bare = 30
		out.Sun[k] = bare * float32(math.Exp(-thick/high))
	}
	out.ToSun, out.SunSpread = narrow(to), 0.018
	return out
}

// tracedLamps are the room's lamps, warm white.
func (s *Scene) tracedLamps() (out []trace.Lamp) {
	const halfMM, underMM, beam, stripMM = 33, 3, 6, 8
	warm := mgl32.Vec3{1, 0.68, 0.40}
	for _, l := range s.furnished.Lamps {
		at := narrow(l.At.Vec3(l.LevelMM))
		switch l.Kind {
		case furnish.Downlight:
			at[2] -= underMM
			strength := float32(420)
			if s.shower.Contains(l.At, 0) {
				strength = 800
			}
			u, v := mgl32.Vec3{halfMM, 0, 0}, mgl32.Vec3{0, -halfMM, 0}
			out = append(out, trace.Lamp{Centre: at, U: u, V: v, Radiance: warm.Mul(strength), Beam: beam})
		case furnish.Globe:
			out = append(out, trace.Lamp{Centre: at, U: mgl32.Vec3{float32(l.LengthMM / 2), 0, 0}, Radiance: warm.Mul(6.5)})
		case furnish.Halo:
			out = append(out, halo(l, warm)...)
		case furnish.Strip:
			u := narrow(flat(l.Along).Mul(l.LengthMM / 2))
			down := mgl32.Vec3{0, 0, -1}
			out = append(out, trace.Lamp{Centre: at, U: u, V: down.Cross(u.Normalize()).Mul(stripMM), Radiance: warm.Mul(18)})
		}
	}
	return out
}

// halo are straight pieces of light all round behind a mirror, which light the wall beside it and are not seen themselves.
func halo(l furnish.Lamp, warm mgl32.Vec3) (out []trace.Lamp) {
	const pieces, insideMM, offMM, halfMM, toWall, strength = 8, 30, 9, 6, 0.7, 55
	along, wall := flat(l.Along), flat(l.Along).Cross(up())
	radius := l.LengthMM/2 - insideMM
	for k := range pieces {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / pieces)
		away := along.Mul(c).Add(up().Mul(s))
		beam := away.Sub(wall.Mul(toWall)).Normalize()
		u := wall.Cross(away).Mul(radius * math.Tan(math.Pi/pieces))
		at := l.At.Vec3(l.LevelMM).Add(away.Mul(radius)).Add(wall.Mul(offMM))
		v := beam.Cross(u.Normalize()).Mul(halfMM)
		out = append(out, trace.Lamp{Centre: narrow(at), U: narrow(u), V: narrow(v), Radiance: warm.Mul(strength)})
	}
	return out
}
