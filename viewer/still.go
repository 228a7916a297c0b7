package viewer

import (
	"context"
	"fmt"
	"image"
	"math"
	"runtime"
)

// Stills draws frames one after the other with so many samples on a context of
// its own, tells how far it is and gives each picture as it is done. A cancelled
// context ends it with that error.
func Stills(ctx context.Context, frames []Frame, samples int, progress func(share float64), done func(i int, img *image.RGBA) error) error {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	r, err := NewRenderer()
	if err != nil {
		return err
	}
	defer r.Close()
	samples = max(1, samples)
	const step = 4
	for i, f := range frames {
		for n := 0; n < samples; {
			if err := ctx.Err(); err != nil {
				return err
			}
			now := min(step, samples-n)
			n += now
			img, _, err := r.Refine(f, 0, now, n == samples)
			if err != nil {
				return fmt.Errorf("drawing picture %d of %d: %w", i+1, len(frames), err)
			}
			if progress != nil {
				progress((float64(i) + float64(n)/float64(samples)) / float64(len(frames)))
			}
			if n == samples {
				if err := done(i, img); err != nil {
					return err
				}
			}
		}
	}
	return nil
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
