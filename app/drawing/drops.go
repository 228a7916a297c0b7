package drawing

import (
	"image/color"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/still"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// course is a way water takes, with the time it has reached each point of it.
type course struct {
	points  []plan.Point
	seconds []float64
}

// at is where a drop is after a time, over and over from the start.
func (c course) at(t float64) plan.Point {
	last := c.seconds[len(c.seconds)-1]
	if last <= 0 {
		return c.points[0]
	}
	t = math.Mod(t, last)
	for i := 1; i < len(c.points); i++ {
		if t <= c.seconds[i] {
			share := (t - c.seconds[i-1]) / math.Max(1e-9, c.seconds[i]-c.seconds[i-1])
			return c.points[i-1].Add(c.points[i].Sub(c.points[i-1]).Mul(share))
		}
	}
	return c.points[len(c.points)-1]
}

// courses are the water's ways in a drawing: over the tile and through the run
// in plan, through the run in the long section, at the speeds worked out.
func courses(kind still.Kind, r geometry.Result, rise float64) []course {
	var out []course
	timed := func(points []plan.Point, speed func(i int) float64) {
		c := course{points: points, seconds: []float64{0}}
		for i := 1; i < len(points); i++ {
			c.seconds = append(c.seconds, c.seconds[i-1]+points[i].Sub(points[i-1]).Len()/1000/math.Max(0.02, speed(i)))
		}
		if len(points) > 1 {
			out = append(out, c)
		}
	}
	if kind == still.Plan && r.Water.Film.VelocityMPS > 0 {
		for _, line := range section.FlowLines(r, 160) {
			timed(line, func(int) float64 { return r.Water.Film.VelocityMPS })
		}
	}
	var run []plan.Point
	var speeds []float64
	for _, w := range r.Water.Pieces {
		if w.VelocityMPS <= 0 {
			break
		}
		add := func(p plan.Point) { run, speeds = append(run, p), append(speeds, w.VelocityMPS) }
		if kind == still.Plan {
			for _, p := range w.Piece.Path {
				add(p)
			}
			continue
		}
		half := w.DepthShare * w.Piece.Pipe.BoreMM / 2
		add(plan.Point{w.Piece.FromMM, (w.Piece.FromInvertMM + half) * rise})
		add(plan.Point{w.Piece.ToMM, (w.Piece.ToInvertMM + half) * rise})
	}
	if len(run) > 1 {
		timed(run, func(i int) float64 { return speeds[i] })
	}
	return out
}

// drops shows water moving over a drawing.
type drops struct {
	courses []course
	dots    []*canvas.Circle
	offsets []float64 // each dot's start on its course, seconds
	of      []int     // its course
}

// dropsInRun is how many dots a course of the run has; one over the tile has
// one.
const dropsInRun = 9

func newDrops(cs []course, ink color.Color) *drops {
	d := &drops{courses: cs}
	for i, c := range cs {
		n := 1
		if i == len(cs)-1 {
			n = dropsInRun
		}
		last := c.seconds[len(c.seconds)-1]
		for k := range n {
			dot := canvas.NewCircle(ink)
			dot.Resize(fyne.NewSize(5, 5))
			d.dots = append(d.dots, dot)
			d.of = append(d.of, i)
			// Drops over the tile start apart, so that they do not march in step.
			d.offsets = append(d.offsets, last*(float64(k)/float64(n)+0.618*float64(i)))
		}
	}
	return d
}

// move puts the dots where the water is.
func (d *drops) move(t float64, toWindow func(plan.Point) fyne.Position) {
	for i, dot := range d.dots {
		dot.Move(toWindow(d.courses[d.of[i]].at(t+d.offsets[i])).SubtractXY(2.5, 2.5))
	}
}

// Moving water: how a fault in it is told, and how often it moves.
const (
	PartWater  message.ID = "fault.water-in-drawing"
	waterEvery            = 66 * time.Millisecond
)

// runWater moves the drops of a view until told to stop, or the window closes.
func (v *View) runWater(on bool) {
	if on == v.watering {
		return
	}
	v.watering = on
	v.placeOverlay()
	if !on {
		close(v.stopWater)
		return
	}
	stop, start := make(chan struct{}), time.Now()
	v.stopWater = stop
	v.sight.Guard.Go(PartWater, func() {
		tick := time.NewTicker(waterEvery)
		defer tick.Stop()
		for {
			select {
			case <-stop:
				return
			case <-v.sight.Closed:
				return
			case <-tick.C:
				v.sight.Do(func() {
					if v.drops != nil && v.Visible() {
						v.drops.move(time.Since(start).Seconds(), v.toWindow)
						v.overlay.Refresh()
					}
				})
			}
		}
	})
}
