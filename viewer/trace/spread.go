package trace

import (
	"image"
	"math"

	"github.com/go-gl/gl/v3.3-core/gl"
)

// tileSide is how many pixels the tiles of a picture are wide and high that get so many samples each: few enough to tell an
// edge from the wall beside it, enough to tell their noise.
const tileSide = 16

// countShader tells how many samples a pixel is of.
const countShader = `
uniform samplerBuffer counts;
uniform int countsAcross, tileSide;
float samplesAt(ivec2 p) { return texelFetch(counts, p.y / tileSide * countsAcross + p.x / tileSide).r; }
`

// Tiles are how many samples each tile of a picture gets, row by row from the lowest; none for as many everywhere.
type Tiles struct {
	across, down int
	samples      []int
}

func tilesOf(width, height int) Tiles {
	across, down := (width+tileSide-1)/tileSide, (height+tileSide-1)/tileSide
	return Tiles{across, down, make([]int, across*down)}
}

// Spread tells how many samples tiles take for the picture to be as clean on the whole as with so many everywhere, from the
// picture as it is shown after half of the samples drawn and after all of them, exposed alike.
//
// Method: the mean of 2n samples lies from that of the first n by as much as it lies from the truth, as the second n are as far
// off as the first, the other way as often as not. Noise falls with the root of the samples, so with a given
// number in all the mean of its squares is least where each tile has samples in proportion to its noise (the best allocation to
// strata of a survey).
// A tile's noise is taken with that of those round it: its own pixels, smoothed together, tell it roughly.
func Spread(half, all *image.RGBA, drawn, samples int) Tiles {
	noise := noiseOf(half, all)
	out := tilesOf(all.Rect.Dx(), all.Rect.Dy())
	most := mostTimes * samples
	given := func(share float64) (left float64) {
		for i, n := range noise {
			out.samples[i] = int(math.Round(math.Max(float64(drawn), math.Min(float64(most), share*math.Sqrt(n)))))
			left += n * float64(drawn) / float64(out.samples[i])
		}
		return left
	}
	want := 0.0
	for _, n := range noise {
		want += n * float64(drawn) / float64(samples)
	}
	low, high := 0.0, 1.0
	for given(high) > want {
		if low, high = high, 2*high; high > 1e9 {
			break // nothing has any noise
		}
	}
	for range 40 {
		if middle := (low + high) / 2; given(middle) > want {
			low = middle
		} else {
			high = middle
		}
	}
	given(high)
	return out
}

// mostTimes is how often as many samples as asked for a tile gets at most.
const mostTimes = 3

// noiseOf is the mean square of what two pictures differ by in each tile, with those round it; a little is everywhere.
func noiseOf(a, b *image.RGBA) []float64 {
	width, height := a.Rect.Dx(), a.Rect.Dy()
	t := tilesOf(width, height)
	sums, counts := make([]float64, len(t.samples)), make([]float64, len(t.samples))
	for y := range height {
		for x := range width {
			tile, at := (height-1-y)/tileSide*t.across+x/tileSide, a.PixOffset(x, y)
			for k := range 3 {
				d := float64(a.Pix[at+k]) - float64(b.Pix[at+k])
				sums[tile] += d * d / 3
			}
			counts[tile]++
		}
	}
	const least = 0.1 // steps of 255, squared: less is in the rounding
	out := make([]float64, len(sums))
	for j := range t.down {
		for i := range t.across {
			sum, weight := 0.0, 0.0
			for v := max(0, j-1); v <= min(t.down-1, j+1); v++ {
				for u := max(0, i-1); u <= min(t.across-1, i+1); u++ {
					k := 1.0
					if u == i && v == j {
						k = 4
					}
					sum, weight = sum+k*sums[v*t.across+u], weight+k*counts[v*t.across+u]
				}
			}
			out[j*t.across+i] = math.Max(least, sum/weight)
		}
	}
	return out
}

// Spread gives tiles no more samples than these from now on. The picture is done when it has as many as the most of them.
func (p *Picture) Spread(t Tiles) { p.tiles = t }

// Most is how many samples the tile with the most gets; 0 where all get as many as are drawn.
func (p *Picture) Most() (most int) {
	for _, n := range p.tiles.samples {
		most = max(most, n)
	}
	return most
}

// Share is the part of the picture that the sample being drawn is of.
func (p *Picture) Share() float64 { return p.tiles.share(p.samples) }

// Drawn is how many samples pixels have on the mean, and how many they get; 0 of 0 where all get as many as are drawn.
func (p *Picture) Drawn() (mean, of float64) {
	n := float64(max(1, len(p.tiles.samples)))
	for _, most := range p.tiles.samples {
		mean, of = mean+float64(min(most, p.samples))/n, of+float64(most)/n
	}
	return mean, of
}

// share is the part of the picture that gets more samples than so many.
func (t Tiles) share(drawn int) float64 {
	n := 0
	for _, most := range t.samples {
		if most > drawn {
			n++
		}
	}
	if len(t.samples) == 0 {
		return 1
	}
	return float64(n) / float64(len(t.samples))
}

// samplesAt are the samples that a pixel has of those drawn whole.
func (p *Picture) samplesAt(x, y int) int {
	if len(p.tiles.samples) == 0 {
		return max(1, p.samples)
	}
	return max(1, min(p.samples, p.tiles.samples[y/tileSide*p.tiles.across+x/tileSide]))
}

// count tells a program how many samples each tile has, by a texture unit.
func (p *Picture) count(in program, unit int) {
	t := tilesOf(p.sums.width, p.sums.height)
	data := make([]float32, 0, 4*len(t.samples))
	for j := range t.down {
		for i := range t.across {
			data = append(data, float32(p.samplesAt(i*tileSide, j*tileSide)), 0, 0, 0)
		}
	}
	p.counts.fill(data)
	gl.UseProgram(in.handle)
	in.texels("counts", unit, p.counts)
	in.whole("countsAcross", t.across)
	in.whole("tileSide", tileSide)
}

// part is a rectangle of a picture's pixels: the columns from the first and before the second, so the rows.
type part struct {
	columns  [2]int
	from, to int
}

// parts are those of some rows that the sample being drawn is of.
func (p *Picture) parts(from, to, width int, columns [2]int) (out []part) {
	t := p.tiles
	if len(t.samples) == 0 {
		return []part{{columns, from, to}}
	}
	for j := from / tileSide; j*tileSide < to; j++ {
		for i := 0; i < t.across; i++ {
			first := i
			for i < t.across && t.samples[j*t.across+i] > p.samples {
				i++
			}
			if i > first {
				out = append(out, part{[2]int{first * tileSide, min(width, i*tileSide)}, max(from, j*tileSide), min(to, (j+1)*tileSide)})
			}
		}
	}
	return out
}
