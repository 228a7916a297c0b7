package viewer

import (
	"image"
	"time"

	"underfall/viewer/trace"
)

// How far a picture at rest is refined: samples, and how long that may take where
// no graphics card draws and light is not followed.
const (
	restSamples         = 96
	restSamplesSoftware = 24
	restMost            = 2 * time.Second
	tracedCard          = 64
	tracedSoftware      = 24
	// Where no card draws a first picture comes at half the size.
	tracedHalf = 4
)

// tracedAtOnce is how many paths are followed at once: few enough for the view to stay
// alive (tens of milliseconds where two cores draw), and for no driver to think the card hangs.
func (r *Renderer) tracedAtOnce() int {
	if r.Software() {
		return 1 << 12
	}
	return 1 << 20
}

// blockDown is how high the blocks of pixels are that drivers without a card draw whole.
const blockDown = 4

// rowsAtOnce are the rows of a picture that paths are followed for at once: whole blocks, as those that a step ends inside of
// are drawn again by the next.
func (r *Renderer) rowsAtOnce(width int) int {
	return blockDown * max(1, r.tracedAtOnce()/(blockDown*width))
}

// showAfter tells whether a traced picture is shown after so many samples. At its full size where no card draws it is not so
// often: taking the noise off takes as long there as half a sample.
func (r *Renderer) showAfter(samples int, full bool) bool {
	switch samples {
	case 2, 8, tracedSoftware, tracedCard:
		return true
	case tracedHalf:
		return !full || !r.Software()
	}
	return false
}

// Rest draws a little more of the picture of a frame at rest in one of the slots, so
// little that whatever moves is not kept waiting. The picture is nil while there is
// none better than the last one, and may be smaller than the frame; more is false
// once it is as good as it gets.
func (r *Renderer) Rest(f Frame, slot int) (img *image.RGBA, more bool, err error) {
	if built, err := r.buildOne(f); built || err != nil {
		return nil, true, err
	}
	s := &r.sums[slot]
	s.begin(f)
	if img, more, err = r.rest(s.of, slot); img != nil {
		s.rested = img
	}
	return img, more, err
}

// Rested is the last picture that Rest gave of a frame in a slot, if of more of its width; nil for none.
func (r *Renderer) Rested(f Frame, slot int) *image.RGBA {
	if s := &r.sums[slot]; s.holds(f) {
		return s.rested
	}
	return nil
}

// rest is Rest of a frame that the slot's sum is of.
func (r *Renderer) rest(f Frame, slot int) (img *image.RGBA, more bool, err error) {
	s := &r.sums[slot]
	if f.traced() {
		return r.restTraced(f, s)
	}
	if f.Look != LookTechnical && f.Scene != nil {
		if err := r.ready(f); err != nil {
			return nil, false, err
		}
		if t := r.tracedRoom(f); t.room.Passes() < trace.EnoughPasses/2 {
			return nil, true, r.tracer.Bake(t.room, r.tracedAtOnce())
		}
	}
	most := restSamples
	if r.Software() {
		most = restSamplesSoftware
	}
	if s.samples >= most {
		return nil, false, nil
	}
	if s.samples == 0 {
		s.began, s.next = time.Now(), 2
	}
	last := s.samples+1 >= most || r.Software() && time.Since(s.began) > restMost
	see := last || s.samples+1 >= s.next
	if see {
		s.next = 2*(s.samples+1) + 2
	}
	img, _, err = r.Refine(f, slot, 1, see)
	if last {
		s.samples = most
	}
	return img, !last, err
}

// restTraced is Rest for a picture made by following light: its room's light first,
// then samples, and noise taken off where it is shown.
func (r *Renderer) restTraced(f Frame, s *sum) (img *image.RGBA, more bool, err error) {
	if err := r.ready(f); err != nil {
		return nil, false, err
	}
	t := r.tracedRoom(f)
	if t.room.Passes() < trace.EnoughPasses/2 || t.room.Baking() {
		return nil, true, r.tracer.Bake(t.room, r.tracedAtOnce())
	}
	sum, most := &s.traced, tracedCard
	if r.Software() {
		most = tracedSoftware
		if s.half.picture.Samples() < tracedHalf || s.half.due {
			sum, most = &s.half, tracedHalf
			f.Width, f.Height = max(1, f.Width/2), max(1, f.Height/2)
		}
	}
	if sum.due {
		img, err := r.showTracedStep(f, sum)
		return img, sum.due || sum != &s.traced || sum.picture.Samples() < most, err
	}
	before := sum.picture.Samples()
	if before >= most {
		return nil, false, nil
	}
	across := f.columns()
	if err := r.traceRows(f, sum, &r.live, r.rowsAtOnce(max(1, across[1]-across[0]))); err != nil {
		return nil, false, err
	}
	if n := sum.picture.Samples(); n > before {
		sum.due = r.showAfter(n, sum == &s.traced)
		if t.room.Passes() < trace.BestPasses {
			return nil, true, r.tracer.Bake(t.room, r.tracedAtOnce())
		}
	}
	return nil, true, nil
}

// showTracedStep takes noise off in steps, the last of which gives the picture.
func (r *Renderer) showTracedStep(f Frame, s *tracedSum) (*image.RGBA, error) {
	done, err := r.tracer.Smooth(&s.picture)
	if err != nil || !done {
		return nil, err
	}
	s.due = false
	return r.toned(f, s)
}
