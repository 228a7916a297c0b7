package trace

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
)

// L is a room of 4 by 4 m without its far right quarter.
func lShaped() []mgl32.Vec2 {
	return []mgl32.Vec2{{0, 0}, {4000, 0}, {4000, 2000}, {2000, 2000}, {2000, 4000}, {0, 4000}}
}

func level(mm float32) func(x, y float32) float32 { return func(_, _ float32) float32 { return mm } }

// No place lies outside the room or over its ceiling, in whichever direction its
// outline goes round; by areas three quarters of the box are inside.
func TestPlacesLieInTheRoom(t *testing.T) {
	outline := lShaped()
	for range 2 {
		slope := func(x, _ float32) float32 { return 1000 + x/4 } // 1 to 2 m
		v := NewVolume(outline, 0, 2000, slope)
		for _, p := range v.places {
			if p[0] > 2000 && p[1] > 2000 || p[0] < 0 || p[1] < 0 || p[0] > 4000 || p[1] > 4000 || p[2] > slope(p[0], p[1]) {
				t.Fatalf("a place at %v", p)
			}
		}
		v = NewVolume(outline, 0, 2000, level(2400))
		if share := float64(len(v.places)) / float64(len(v.index)); math.Abs(share-0.75) > 0.05 {
			t.Errorf("%.2f of the places are inside", share)
		}
		if len(v.walls) != 2 {
			t.Errorf("%d walls at corners that turn inward, want the two at one corner", len(v.walls))
		}
		for i, j := 0, len(outline)-1; i < j; i, j = i+1, j-1 {
			outline[i], outline[j] = outline[j], outline[i]
		}
	}
}

// Places inside of something weigh nothing and give their neighbours nothing; even
// light stays even.
func TestPackedLight(t *testing.T) {
	v := NewVolume([]mgl32.Vec2{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}, 0, 1000, level(1000))
	all := make([]light, faces*len(v.places))
	for i := range all {
		all[i] = light{mgl32.Vec3{1, 1, 1}, mgl32.Vec3{0.5, 0.5, 0.5}, 1}
	}
	const buried = 7
	for f := range faces {
		all[faces*buried+f] = light{mgl32.Vec3{90, 90, 90}, mgl32.Vec3{90, 90, 90}, 0.2}
	}
	whole, bounced, mean := v.pack(all)
	for i := range v.places {
		for f := range faces {
			at := 4 * (faces*i + f)
			want := [3]float32{1.5, 0.5, 1}
			if i == buried {
				want = [3]float32{}
			}
			if got := [3]float32{whole[at], bounced[at], whole[at+3]}; got != want {
				t.Fatalf("place %d: %v, want %v", i, got, want)
			}
		}
	}
	if math.Abs(float64(mean[0])-1.5) > 1e-4 {
		t.Errorf("mean %v", mean)
	}
}

// Of a place that lies partly inside of something chance has one ray in a hundred more or less begin there: it weighs all but the
// same, and so does the light between it and a place in the open.
func TestChanceDoesNotDecideWhatAPlaceWeighs(t *testing.T) {
	for open := float32(0.3); open < 1; open += 0.01 {
		v := NewVolume([]mgl32.Vec2{{0, 0}, {500, 0}, {500, 500}, {0, 500}}, 0, 500, level(500))
		var weights, means [2]float32
		for k := range 2 {
			all := make([]light, faces*len(v.places))
			for i := range all {
				all[i] = light{mgl32.Vec3{1, 1, 1}, mgl32.Vec3{}, 1}
			}
			const partly = 3
			for f := range faces {
				all[faces*partly+f] = light{mgl32.Vec3{2, 2, 2}, mgl32.Vec3{}, open + float32(k)*0.01}
			}
			whole, _, mean := v.pack(all)
			weights[k], means[k] = whole[4*faces*partly+3], mean[0]
		}
		if weights[1]-weights[0] > 0.05 || means[1]-means[0] > 0.01 || means[0]-means[1] > 0.01 {
			t.Errorf("from %.2f to one in a hundred more: weighs %v, mean light %v", open, weights, means)
		}
	}
}

// The exposure of an even grey does not depend on how bright it is, a colour cast is
// taken off in part, and what is nothing does not count. What is green itself, under white light, turns nothing.
func TestExposure(t *testing.T) {
	picture := func(c mgl32.Vec3, nothing float32) []float32 {
		var out []float32
		for range 200 {
			texel(&out, c, 1)
			texel(&out, mgl32.Vec3{nothing, nothing, nothing}, 0)
		}
		return out
	}
	alike := func(pixels []float32, evening bool) Exposure { return Expose(pixels, pixels, evening) }
	dim, bright := alike(picture(mgl32.Vec3{0.01, 0.01, 0.01}, 0), false), alike(picture(mgl32.Vec3{5, 5, 5}, 70), false)
	if a, b := dim.Factor*0.01, bright.Factor*5; math.Abs(float64(a/b)-1) > 0.02 {
		t.Errorf("dim grey comes out at %v, bright at %v", a, b)
	}
	warm := alike(picture(mgl32.Vec3{1, 0.8, 0.6}, 0), false).White
	if !(warm[0] < 1 && warm[2] > 1) || warm[0]*1 < warm[2]*0.6 {
		t.Errorf("warm light is brought to %v", warm)
	}
	green := Expose(picture(mgl32.Vec3{0.1, 0.4, 0.2}, 0), picture(mgl32.Vec3{1, 1, 1}, 0), false).White
	for k, w := range green {
		if math.Abs(float64(w)-1) > 0.01 {
			t.Errorf("a green room under white light is brought to white by %v in channel %d", w, k)
		}
	}
	if nothing := alike(make([]float32, 400), true); nothing.Factor != 1 {
		t.Errorf("of nothing: %v", nothing)
	}
}
