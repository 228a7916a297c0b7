package viewer

import (
	"fmt"
	"image"
	"runtime/debug"
	"syscall"
	"testing"
	"time"

	"github.com/go-gl/gl/v3.3-core/gl"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/viewer/trace"
)

// photographed is the photograph of a demo's finished room.
func photographed(tb testing.TB, demo, width, height int) Frame {
	res := demotest.Results(tb)[demo]
	camera := CameraFor(ViewPhoto, res, float64(width)/float64(height))
	return Frame{Scene: NewScene(res, nil), Camera: camera, Stage: buildup.StageTile, Width: width, Height: height}
}

// baked bakes a frame's room until it is good to be shown.
func baked(tb testing.TB, r *Renderer, f Frame) *trace.Room {
	tb.Helper()
	if err := r.ready(f); err != nil {
		tb.Fatal(err)
	}
	room := r.tracedRoom(f).room
	for room.Passes() < trace.EnoughPasses {
		if err := r.tracer.Bake(room, wholePass); err != nil {
			tb.Fatal(err)
		}
	}
	gl.Finish()
	return room
}

// built has all programs built that a frame's picture takes, which drivers do when they are first drawn with.
func built(tb testing.TB, r *Renderer, f Frame) {
	tb.Helper()
	if _, err := r.BuildClasses(f); err != nil {
		tb.Fatal(err)
	}
	f.Width, f.Height = 32, 20
	if _, _, err := r.Refine(f, 1, 1, true); err != nil {
		tb.Fatal(err)
	}
}

// The demo that benchmarks are of: a loft with a slope, a window and all its furniture.
const benchmarkDemo = 1

// BenchmarkBake bakes a room's light from nothing until it is good to be shown.
func BenchmarkBake(b *testing.B) {
	f := photographed(b, benchmarkDemo, 640, 400)
	r := Open(b)
	for b.Loop() {
		b.StopTimer()
		for _, t := range r.traced {
			t.room.Free()
		}
		r.traced = nil
		if err := r.ready(f); err != nil {
			b.Fatal(err)
		}
		r.tracedRoom(f)
		gl.Finish()
		b.StartTimer()
		baked(b, r, f)
	}
}

// BenchmarkTree brings a room to the graphics memory: its tree is most of that.
func BenchmarkTree(b *testing.B) {
	f := photographed(b, benchmarkDemo, 640, 400)
	r := Open(b)
	for b.Loop() {
		r.tracedRoom(f)
		gl.Finish()
		b.StopTimer()
		r.traced[0].room.Free()
		r.traced = nil
		b.StartTimer()
	}
}

// BenchmarkSample is one sample of a traced picture, its room's light baked.
func BenchmarkSample(b *testing.B) {
	for _, size := range [][2]int{{640, 400}, {1280, 800}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			f := photographed(b, benchmarkDemo, size[0], size[1])
			r := Open(b)
			baked(b, r, f)
			built(b, r, f)
			var s tracedSum
			defer s.free()
			for b.Loop() {
				if err := r.traceRows(f, &s, &r.live, f.Height); err != nil {
					b.Fatal(err)
				}
				gl.Finish()
			}
		})
	}
}

// BenchmarkSmooth takes the noise off a traced picture, BenchmarkToning brings it to the screen.
func BenchmarkSmooth(b *testing.B) {
	benchmarkShown(b, func(r *Renderer, _ Frame, s *tracedSum) error {
		for done := false; !done; {
			var err error
			if done, err = r.tracer.Smooth(&s.picture); err != nil {
				return err
			}
		}
		gl.Finish()
		return nil
	})
}

func BenchmarkToning(b *testing.B) {
	benchmarkShown(b, func(r *Renderer, f Frame, s *tracedSum) error {
		_, err := r.toned(f, s)
		return err
	})
}

// benchmarkShown times what is done with a sampled picture that was smoothed once.
func benchmarkShown(b *testing.B, do func(*Renderer, Frame, *tracedSum) error) {
	f := photographed(b, benchmarkDemo, 1280, 800)
	r := Open(b)
	baked(b, r, f)
	var s tracedSum
	defer s.free()
	if err := r.traceRows(f, &s, &r.live, f.Height); err != nil {
		b.Fatal(err)
	}
	if _, err := r.showTraced(f, &s); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := do(r, f, &s); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkClean is a whole clean picture, the room's light baked: samples, smoothing, toning.
func BenchmarkClean(b *testing.B) {
	f := photographed(b, benchmarkDemo, 1280, 800)
	r := Open(b)
	samples := tracedCard
	if r.Software() {
		samples = 2
	}
	b.Run(fmt.Sprintf("%d samples", samples), func(b *testing.B) {
		r := Open(b)
		baked(b, r, f)
		built(b, r, f)
		for i := 0; b.Loop(); i++ {
			f.Camera.Yaw += 1e-6 // begin again
			if _, _, err := r.Refine(f, 0, samples, true); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkTracedRest is a picture at rest from when it is first asked for until it is of eight samples at its full
// size, after a change of view and from nothing: until the first that is shown, until the first at full size, and what
// the process had of all processors until then, which does not hang on what else runs.
// Programs are built before, as they are but once.
func BenchmarkTracedRest(b *testing.B) {
	for _, fresh := range []bool{false, true} {
		name := "view changed"
		if fresh {
			name = "from nothing"
		}
		b.Run(name, func(b *testing.B) {
			f := photographed(b, benchmarkDemo, 1280, 800)
			r := Open(b)
			baked(b, r, f)
			built(b, r, f)
			var first, full, cpuFirst, cpuFull time.Duration
			for b.Loop() {
				if fresh {
					for _, t := range r.traced {
						t.room.Free()
					}
					r.traced = nil
				}
				f.Camera.Yaw += 1e-6
				inFull := 3 // pictures, of 2, 4 and 8 samples
				if r.Software() {
					inFull = 2 // of 2 and 8
				}
				began, cpuBegan := time.Now(), processorTime(b)
				for some, fulls := false, 0; fulls < inFull; {
					img, more, err := r.Rest(f, 0)
					if err != nil || !more {
						b.Fatalf("more to come is %v: %v", more, err)
					}
					if img == nil {
						continue
					}
					if !some {
						first, cpuFirst, some = first+time.Since(began), cpuFirst+processorTime(b)-cpuBegan, true
					}
					if img.Rect.Dx() < f.Width {
						continue
					}
					if fulls++; fulls == 1 {
						full, cpuFull = full+time.Since(began), cpuFull+processorTime(b)-cpuBegan
					}
				}
			}
			n := float64(b.N)
			b.ReportMetric(first.Seconds()/n, "s-first")
			b.ReportMetric(full.Seconds()/n, "s-full")
			b.ReportMetric(cpuFirst.Seconds()/n, "cpu-s-first")
			b.ReportMetric(cpuFull.Seconds()/n, "cpu-s-full")
		})
	}
}

// BenchmarkMovingRoom is a moving picture of the finished room, lit by its volume, with the programs that are built at
// rest.
func BenchmarkMovingRoom(b *testing.B) {
	for _, size := range [][2]int{{400, 250}, {1200, 800}, {1920, 1080}, {3840, 2160}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			f := photographed(b, benchmarkDemo, size[0], size[1])
			r := Open(b)
			baked(b, r, f)
			if _, err := r.BuildClasses(f); err != nil {
				b.Fatal(err)
			}
			var img *image.RGBA
			var err error
			for b.Loop() {
				if img, err = r.Draw(f); err != nil || img == nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// processorTime is what this process has had of all processors so far.
func processorTime(tb testing.TB) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		tb.Skip(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// A room rebuilt a hundred times, its light baked a little each time, takes no more memory at the end than after
// the first rebuilds, when every buffer there may be side by side is there.
func TestRebuildsTakeNoMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("a minute or so")
	}
	r := Open(t)
	res := demotest.Results(t)[benchmarkDemo]
	const rebuilds, settled, slackMB = 100, 15, 24
	before, scene := 0.0, (*Scene)(nil)
	for i := range rebuilds {
		scene = NewScene(res, scene)
		f := Frame{Scene: scene, Camera: CameraFor(ViewPhoto, res, 1.5), Stage: buildup.StageTile, Width: 60, Height: 40}
		if _, err := r.Draw(f); err != nil {
			t.Fatal(err)
		}
		if err := r.tracer.Bake(r.tracedRoom(f).room, 512); err != nil {
			t.Fatal(err)
		}
		gl.Finish()
		if i == settled {
			debug.FreeOSMemory()
			before = ResidentMB(t)
		}
	}
	debug.FreeOSMemory()
	if after := ResidentMB(t); after > before+slackMB {
		t.Errorf("%.0f MB after %d rebuilds, %.0f after %d", after, rebuilds, before, settled)
	}
}
