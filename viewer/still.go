package viewer

import (
	"context"
	"fmt"
	"image"
	"math"

	"underfall/viewer/trace"
)

// still is one picture that is drawn in slices between the live ones.
type still struct {
	ctx     context.Context
	frame   Frame
	samples int
	done    int      // samples
	row     int      // the first not done yet, of the sample or of what is shown
	painter *painter // of the sample being drawn
	image   *image.RGBA
	half    *image.RGBA // a traced one after half of the samples that tell where more are needed
	halfAs  trace.Exposure
	shares  chan float64     // the latest share done, for whoever waits
	result  chan stillResult // takes one without anybody waiting
}

type stillResult struct {
	image *image.RGBA
	err   error
}

// stillSheet is where stills are drawn; the live pictures between keep theirs.
type stillSheet struct {
	sheet
	sum    summed
	traced tracedSum
	of     *still // that is being traced
}

func (s *stillSheet) free() {
	s.sheet.free()
	s.sum.free()
	s.traced.free()
	s.of = nil
}

// slicePixels is how much of a still is drawn at once: little enough for the
// live picture to move between, even where no graphics card draws.
const slicePixels = 1 << 18

// slice is the next rows to draw.
func (s *still) slice() rows {
	n := max(1, slicePixels/s.frame.Width)
	return rows{s.row, min(s.frame.Height, s.row+n)}
}

// begin starts the picture from its beginning, as another renderer must.
func (s *still) begin() { s.done, s.row, s.painter, s.image, s.half = 0, 0, nil, nil, nil }

// step draws one slice; over tells that the picture is done.
func (s *still) step(r *Renderer) (over bool, err error) {
	if s.frame.traced() {
		return s.trace(r)
	}
	if s.done == s.samples {
		return s.show(r)
	}
	sheet := &r.still
	if sheet.keyMap.frame == 0 {
		sheet.keyMap = newShadowMap()
	}
	if s.painter == nil {
		s.painter, err = r.prepare(s.frame, &sheet.sheet, s.done+1)
	} else {
		err = r.ready(s.frame)
	}
	if err != nil {
		return false, err
	}
	part := s.slice()
	s.painter.paint(part)
	if err := r.addUp(&sheet.sum, &sheet.sample, s.done == 0, part); err != nil {
		return false, err
	}
	if s.row = part.to; s.row == s.frame.Height {
		s.row, s.painter = 0, nil
		s.done++
	}
	s.tell((float64(s.done) + float64(s.row)/float64(s.frame.Height)) / float64(s.samples))
	return false, nil
}

// trace is step for a picture made by following light: its room's light, then rows of
// samples.
func (s *still) trace(r *Renderer) (over bool, err error) {
	if err := r.ready(s.frame); err != nil {
		return false, err
	}
	sheet := &r.still
	if sheet.of != s {
		sheet.of, s.done, s.row = s, 0, 0
		sheet.traced.begin()
	}
	t := r.tracedRoom(s.frame)
	if t.room.Passes() < trace.EnoughPasses || t.room.Baking() {
		return false, r.tracer.Bake(t.room, r.tracedAtOnce())
	}
	picture := &sheet.traced.picture
	if picture.Samples() == s.last(picture) {
		s.image, err = r.showTraced(s.frame, &sheet.traced)
		return true, err
	}
	part := r.rowsAtOnce(int(math.Ceil(float64(s.frame.Width) * picture.Share())))
	if err := r.traceRows(s.frame, &sheet.traced, &sheet.sheet, part); err != nil {
		return false, err
	}
	if s.row += part; picture.Samples() > s.done {
		s.done, s.row = picture.Samples(), 0
		if err := s.spread(r); err != nil {
			return false, err
		}
		if t.room.Passes() < trace.BestPasses {
			if err := r.tracer.Bake(t.room, r.tracedAtOnce()); err != nil {
				return false, err
			}
		}
	}
	s.tell(s.share(picture))
	return false, nil
}

// last is how many samples are drawn where most are.
func (s *still) last(p *trace.Picture) int {
	if most := p.Most(); most > 0 {
		return most
	}
	return s.samples
}

// share is how much of a traced still is drawn.
func (s *still) share(p *trace.Picture) float64 {
	if mean, of := p.Drawn(); of > 0 {
		return mean / of
	}
	return (float64(s.done) + float64(s.row)/float64(s.frame.Height)) / float64(s.samples)
}

const (
	// spreadAfter is how many samples tell where more of them are needed; a still of fewer than leastSpread has as many everywhere.
	spreadAfter = 10
	leastSpread = 16
)

// spread looks at a traced still after some samples and has the rest drawn where there is noise. A card draws all of a sample
// sooner than parts of it.
func (s *still) spread(r *Renderer) error {
	if !r.Software() || !r.able.Blends || s.samples < leastSpread {
		return nil
	}
	traced := &r.still.traced
	switch s.done {
	case spreadAfter / 2:
		half, err := r.showTraced(s.frame, traced)
		s.half, s.halfAs = half, r.exposureKept(s.frame)
		return err
	case spreadAfter:
		all, err := r.shownAs(s.frame, traced, s.halfAs)
		if err != nil {
			return err
		}
		traced.picture.Spread(trace.Spread(s.half, all, s.done, s.samples))
		s.half = nil
	}
	return nil
}

// show tones and reads back one slice of the picture.
func (s *still) show(r *Renderer) (over bool, err error) {
	if s.image == nil {
		s.image = image.NewRGBA(image.Rect(0, 0, s.frame.Width, s.frame.Height))
	}
	part := s.slice()
	if err := r.showRows(&r.still.sum.target, &r.still.shown, s.samples, part, s.image); err != nil {
		return false, err
	}
	s.row = part.to
	return s.row == s.frame.Height, nil
}

// tell lets whoever waits know the share that is done; only the latest counts.
func (s *still) tell(share float64) {
	select {
	case <-s.shares:
	default:
	}
	s.shares <- share
}

// Stills draws frames one after the other with so many samples, in slices
// between the live pictures, tells how far it is and gives each picture as it is
// done. Progress, nil for nobody, and done are called on the calling goroutine.
// A cancelled context ends it with that error, as does an error of done.
func (s *Studio) Stills(ctx context.Context, frames []Frame, samples int, progress func(share float64), done func(i int, img *image.RGBA) error) error {
	for i, f := range frames {
		img, err := s.one(ctx, f, max(1, samples), func(share float64) {
			if progress != nil {
				progress((float64(i) + share) / float64(len(frames)))
			}
		})
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			return fmt.Errorf("drawing picture %d of %d: %w", i+1, len(frames), err)
		}
		if err := done(i, img); err != nil {
			return err
		}
	}
	return nil
}

// one draws one picture and waits for it.
func (s *Studio) one(ctx context.Context, f Frame, samples int, progress func(share float64)) (*image.RGBA, error) {
	task := &still{ctx: ctx, frame: f, samples: samples, shares: make(chan float64, 1), result: make(chan stillResult, 1)}
	if err := s.queue(task); err != nil {
		return nil, err
	}
	for {
		select {
		case share := <-task.shares:
			progress(share)
		case r := <-task.result:
			if r.err == nil {
				progress(1)
			}
			return r.image, r.err
		case <-ctx.Done():
			s.rouse() // which lets the task go
			return nil, ctx.Err()
		}
	}
}

// Turntable is a frame seen from all round, in so many steps.
func Turntable(f Frame, steps int) []Frame {
	var out []Frame
	for i := range steps {
		g := f
		g.Camera.Yaw += 2 * math.Pi * float64(i) / float64(steps)
		out = append(out, g)
	}
	return out
}
