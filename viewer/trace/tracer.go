package trace

import (
	"errors"
	"fmt"
	"image"
	"math"
	"slices"

	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// ErrSize tells that the driver refuses pictures of a size.
var ErrSize = errors.New("the graphics driver refuses a picture of this size")

// Tracer draws with the context that was current when it was made; all it does
// must be done on that context's thread.
type Tracer struct {
	sample, bake, mirror, gather, smooth, meter, tone program
	whole                                             uint32 // a vertex array with nothing in it
	passes                                            [2]sheets
	gathered, metered, shown                          sheets
	smoothed                                          *sheets // what the passes gave last
	smoothedBy                                        int     // passes
	smoothing                                         smoothing
	able                                              Abilities
	lit                                               map[uint32]program // those of others, by their handles
}

// New builds the programs on the current context, for what its driver is able to do.
func New(able Abilities) (*Tracer, error) {
	t := &Tracer{able: able, lit: map[uint32]program{}}
	path := func(path string, outs []string) func() (program, error) {
		return func() (program, error) { return able.adder(path, outs) }
	}
	sheet := func(fragment string) func() (program, error) {
		return func() (program, error) { return build(sheetVertex, fragment) }
	}
	for _, p := range []struct {
		to   *program
		name string
		made func() (program, error)
	}{
		{&t.sample, "sample", path(samplePath, sampleSums())}, {&t.bake, "bake", path(bakePath, bakeSums())},
		{&t.mirror, "mirror", path(mirrorPath, []string{"outSeen"})},
		{&t.gather, "gather", sheet(gatherFragment)}, {&t.smooth, "smooth", sheet(smoothFragment)},
		{&t.meter, "meter", sheet(meterFragment)}, {&t.tone, "tone", sheet(toneFragment)},
	} {
		var err error
		if *p.to, err = p.made(); err != nil {
			t.Free()
			return nil, fmt.Errorf("tracing, %s: %w", p.name, err)
		}
	}
	gl.GenVertexArrays(1, &t.whole)
	return t, nil
}

// Free gives the graphics memory back.
func (t *Tracer) Free() {
	for _, p := range []program{t.sample, t.bake, t.mirror, t.gather, t.smooth, t.meter, t.tone} {
		if p.handle != 0 {
			gl.DeleteProgram(p.handle)
		}
	}
	for i := range t.passes {
		t.passes[i].free()
	}
	t.gathered.free()
	t.metered.free()
	t.shown.free()
	if t.whole != 0 {
		gl.DeleteVertexArrays(1, &t.whole)
	}
	*t = Tracer{}
}

// Room is a scene in the graphics memory, with the light that was baked of it.
type Room struct {
	scene                                *Scene
	volume                               *Volume
	nodes, triangles, normals, materials texels
	lamps, places                        texels
	// Light of the volume: with all of it for faces that are drawn, and for paths that end in it; without what is
	// straight from lamps and windows.
	light, whole, bounced texels
	settled               [2][]float32 // what whole and bounced are of
	able                  Abilities
	nodeCount, lampCount  int
	hidden                []bool
	packed                []float32 // materials, none hidden
	baked                 sums
	mirror                *mirror // nil for none
	passes                int     // baked whole since the sums began
	row                   int     // the next of the pass being baked
	warm                  bool    // the light stands, if roughly
	mean                  mgl32.Vec3
}

// Load brings a scene to the graphics memory. Without a volume, nil, what paths end
// in is the mean given.
func (t *Tracer) Load(s *Scene, v *Volume, mean mgl32.Vec3) *Room {
	r := &Room{scene: s, volume: v, mean: mean, able: t.able}
	tr := plant(s.Triangles)
	nodes, each := tr.pack()
	triangles, normals := packTriangles(s, tr.order)
	lamps, lampCount := packLamps(s)
	r.nodeCount, r.lampCount = each, lampCount
	r.nodes.fill(nodes)
	r.triangles.fill(triangles)
	r.normals.fill(normals)
	r.packed = packMaterials(s.Materials, nil)
	r.materials.fill(r.packed)
	r.lamps.fill(lamps)
	var places []float32
	if v != nil {
		for _, p := range v.places {
			texel(&places, p, 0)
		}
		r.mirror = mirrorOf(s, v.middle())
	}
	r.places.fill(places)
	r.fill(nil, nil)
	return r
}

// fill brings light of the volume, packed, to the graphics memory; nil for none yet.
func (r *Room) fill(whole, bounced []float32) {
	r.settled = [2][]float32{whole, bounced}
	for _, l := range []struct {
		to      *texels
		packed  []float32
		between bool // places are read by the driver
	}{{&r.light, whole, r.able.Filters}, {&r.whole, whole, r.able.pathsFilter()}, {&r.bounced, bounced, r.able.pathsFilter()}} {
		switch {
		case !l.between:
			l.to.fill(l.packed)
		case l.packed == nil:
			l.to.fillGrid(make([]float32, 4), 1, 1, 1)
		default:
			v := r.volume
			l.to.fillGrid(v.grid(l.packed), v.count[0], v.count[1], faces*v.count[2])
		}
	}
}

// Free gives the graphics memory back.
func (r *Room) Free() {
	for _, l := range []*texels{&r.nodes, &r.triangles, &r.normals, &r.materials, &r.lamps, &r.places, &r.light, &r.whole, &r.bounced} {
		l.free()
	}
	r.baked.free()
	if r.mirror != nil {
		r.mirror.free()
	}
}

// roomUnits are the texture units that bind uses, from the first on.
const roomUnits = 8

// bind tells a program that follows light about the room.
func (r *Room) bind(p program, cuts []mgl32.Vec4, bounces int) {
	gl.UseProgram(p.handle)
	for i, l := range []struct {
		name string
		list texels
	}{{"nodes", r.nodes}, {"triangles", r.triangles}, {"normals", r.normals}, {"materials", r.materials},
		{"lamps", r.lamps}, {"whole", r.whole}, {"bounced", r.bounced}, {"places", r.places}} {
		p.texels(l.name, i, l.list)
	}
	p.whole("nodeCount", r.nodeCount)
	p.whole("one", 1)
	r.sky(p, r.lampCount)
	p.number("sunSpread", r.scene.Sky.SunSpread)
	p.whole("cutCount", len(cuts))
	for i, c := range cuts {
		p.vec4(fmt.Sprintf("cuts[%d]", i), c)
	}
	p.whole("bounces", bounces)
	r.stand(p)
}

// sky tells a program of the sky and of so many lamps, of which windows come first.
func (r *Room) sky(p program, lamps int) {
	p.whole("lampCount", lamps)
	s := r.scene.Sky
	p.vec3("skyHigh", s.High)
	p.vec3("skyLow", s.Low)
	p.vec3("skyGround", s.Ground)
	p.vec3("sun", s.Sun)
	p.vec3("toSun", s.ToSun)
	p.vec3("outside", r.scene.Outside)
}

// stand tells a program of the volume.
func (r *Room) stand(p program) {
	stands := 0
	if v := r.volume; v != nil && r.warm {
		stands = 1
		p.vec3("volumeLow", v.low)
		p.vec3("volumeStep", v.step)
		gl.Uniform3i(p.place("volumeCount"), int32(v.count[0]), int32(v.count[1]), int32(v.count[2]))
		p.whole("wallCount", len(v.walls))
		for i, c := range v.walls {
			p.vec4(fmt.Sprintf("walls[%d]", i), mgl32.Vec4{c[0][0], c[0][1], c[1][0], c[1][1]})
		}
	}
	p.whole("volumeStands", stands)
	p.vec3("volumeMean", r.mean)
}

const (
	// firstPasses are baked with more bounces into nothing; what follows ends in
	// what they gave.
	firstPasses  = 16
	firstBounces = 3
	laterBounces = 1
	// EnoughPasses is from when a volume is good to be shown, BestPasses from when
	// more change nothing that is seen.
	EnoughPasses = 48
	BestPasses   = 256
)

// Passes is how many passes the volume has of all that it will have, for whoever
// shows progress; a room without a volume has all.
func (r *Room) Passes() int {
	switch {
	case r.volume == nil || len(r.volume.places) == 0:
		return BestPasses
	case !r.warm:
		return 0
	}
	return r.passes
}

// Baking tells that a pass was begun and is not whole, or that what the mirror shows is not by the newest light.
func (r *Room) Baking() bool { return r.row > 0 || r.mirror != nil && r.mirror.due }

// bakedSize is that of the sheets that the room's light is baked on.
func (r *Room) bakedSize() (width, height int) {
	const across = 512
	return across, (faces*len(r.volume.places) + across - 1) / across
}

// Bake adds the next paths, about so many, to a pass of the room's volume: one for each face
// of each place.
func (t *Tracer) Bake(r *Room, paths int) error {
	v := r.volume
	if v == nil || len(v.places) == 0 {
		return nil
	}
	if r.mirror != nil && r.mirror.due {
		return t.look(r, paths)
	}
	width, height := r.bakedSize()
	if err := r.baked.fit(width, height, 2, gl.RGBA32F); err != nil {
		return err
	}
	if r.passes == 0 && r.row == 0 {
		r.baked.clear()
	}
	bounces := firstBounces
	if r.warm {
		bounces = laterBounces
	}
	r.bind(t.bake, nil, bounces)
	t.bake.whole("width", width)
	t.bake.whole("faceCount", faces*len(v.places))
	t.bake.whole("passNumber", r.passes+1)
	end := min(r.baked.height, r.row+max(1, paths/width))
	if err := t.add(t.bake, &r.baked, roomUnits, r.row, end, [2]int{}); err != nil {
		return err
	}
	if r.row = end; end < r.baked.height {
		return nil
	}
	r.row = 0
	r.passes++
	switch {
	case !r.warm && r.passes == firstPasses:
		r.settle()
		r.warm, r.passes = true, 0
	case r.warm && (r.passes == EnoughPasses/2 || r.passes == EnoughPasses || r.passes == BestPasses/2 || r.passes == BestPasses):
		r.settle()
	}
	return nil
}

// settle makes the light of what was baked so far.
func (r *Room) settle() {
	lamps, bounced := r.baked.read(0), r.baked.read(1)
	all := make([]light, faces*len(r.volume.places))
	k := 1 / float32(r.passes)
	at := func(d []float32, i int) mgl32.Vec3 {
		return mgl32.Vec3{finite(d[4*i]), finite(d[4*i+1]), finite(d[4*i+2])}.Mul(k)
	}
	for i := range all {
		all[i] = light{at(lamps, i), at(bounced, i), finite(lamps[4*i+3]) * k}
	}
	var whole, onlyBounced []float32
	whole, onlyBounced, r.mean = r.volume.pack(all)
	r.fill(whole, onlyBounced)
	if r.mirror != nil {
		r.mirror.due = true
	}
}

// View is what a picture is seen from.
type View struct {
	// Forward leads from the eye to the picture's middle, Right and Up from there to
	// its edges, on a plane one millimetre from the eye.
	Eye, Forward, Right, Up mgl32.Vec3
	// NearMM is how far the plane is from the eye where sight begins.
	NearMM float32
	// Hidden are the materials that the eye does not see, though light does.
	Hidden []bool
	// Cuts take away what lies before all of them: (normal, -offset), at most two.
	Cuts []mgl32.Vec4
	// Columns are those of the picture's pixels that are seen, from the first and before the second; zero for all.
	Columns [2]int
}

// Picture is samples of what is seen, added up.
type Picture struct {
	sums    sums
	samples int
	row     int   // the next of the sample being drawn
	tiles   Tiles // how many samples each gets
	counts  texels
}

// Samples are those drawn whole.
func (p *Picture) Samples() int { return p.samples }

// Begin empties the picture.
func (p *Picture) Begin() { p.samples, p.row, p.tiles = 0, 0, Tiles{} }

// Free gives the graphics memory back.
func (p *Picture) Free() {
	p.sums.free()
	p.counts.free()
}

// halton is the i-th member of a low-discrepancy sequence in a base.
func halton(i, base int) float32 {
	f, out := 1.0, 0.0
	for ; i > 0; i /= base {
		f /= float64(base)
		out += f * float64(i%base)
	}
	return float32(out)
}

// Sample draws the next rows of a sample of so many pixels in all.
func (t *Tracer) Sample(p *Picture, r *Room, v View, width, height, rows, bounces int) error {
	if err := p.sums.fit(width, height, 4, gl.RGBA32F); err != nil {
		return err
	}
	if p.samples == 0 && p.row == 0 {
		p.sums.clear()
	}
	if !slices.Equal(r.hidden, v.Hidden) {
		r.hidden = slices.Clone(v.Hidden)
		r.materials.fill(packMaterials(r.scene.Materials, r.hidden))
	}
	r.bind(t.sample, v.Cuts, bounces)
	s := t.sample
	s.vec2("size", float32(width), float32(height))
	s.whole("sampleNumber", p.samples+1)
	s.vec2("jitter", halton(p.samples+1, 2)-0.5, halton(p.samples+1, 3)-0.5)
	s.vec3("eye", v.Eye)
	s.vec3("forward", v.Forward)
	s.vec3("right", v.Right)
	s.vec3("up", v.Up)
	s.number("near", v.NearMM)
	s.number("pixelAngle", 2*v.Up.Len()/float32(height))
	end := min(height, p.row+max(1, rows))
	for _, part := range p.parts(p.row, end, width, v.Columns) {
		if err := t.add(t.sample, &p.sums, roomUnits, part.from, part.to, part.columns); err != nil {
			return err
		}
	}
	if p.row = end; end == height {
		p.row = 0
		p.samples++
	}
	return nil
}

// Exposure is how light is brought to the screen.
type Exposure struct {
	Factor float32
	White  mgl32.Vec3 // factors that bring the light's colour near to white
}

// smoothPasses are drawn over twice as many pixels each.
const smoothPasses = 4

// Smooth takes the noise off the picture, a pass each time, until it is done: Meter
// and Show work on what it made last. Another picture between begins it again.
func (t *Tracer) Smooth(p *Picture) (done bool, err error) {
	restore := drawing(false)
	defer restore()
	width, height := p.sums.width, p.sums.height
	draw := func(to *sheets) {
		gl.BindFramebuffer(gl.FRAMEBUFFER, to.frame)
		gl.Viewport(0, 0, int32(width), int32(height))
		gl.BindVertexArray(t.whole)
		gl.DrawArrays(gl.TRIANGLES, 0, 3)
	}
	if of := (smoothing{p, p.samples}); t.smoothing != of || t.smoothedBy == smoothPasses {
		if err := t.gathered.fit(width, height, 4, gl.RGBA32F); err != nil {
			return false, err
		}
		gl.UseProgram(t.gather.handle)
		for i, name := range []string{"mattSum", "glossSum", "albedoSum", "normalSum"} {
			t.gather.texture(name, i, gl.TEXTURE_2D, p.sums.textures[i])
		}
		p.count(t.gather, 4)
		draw(&t.gathered)
		t.smoothing, t.smoothedBy, t.smoothed = of, 0, &t.gathered
		return false, nil
	}
	to := &t.passes[t.smoothedBy%2]
	if err := to.fit(width, height, 2, gl.RGBA32F); err != nil {
		return false, err
	}
	gl.UseProgram(t.smooth.handle)
	t.smooth.texture("matt", 0, gl.TEXTURE_2D, t.smoothed.textures[0])
	t.smooth.texture("gloss", 1, gl.TEXTURE_2D, t.smoothed.textures[1])
	t.smooth.texture("faces", 2, gl.TEXTURE_2D, t.gathered.textures[2])
	t.smooth.texture("tints", 3, gl.TEXTURE_2D, t.gathered.textures[3])
	t.smooth.number("stepPixels", float32(int(1)<<t.smoothedBy))
	draw(to)
	t.smoothed = to
	t.smoothedBy++
	return t.smoothedBy == smoothPasses, nil
}

// smoothing is what is being smoothed.
type smoothing struct {
	picture *Picture
	samples int
}

// bindPicture tells a program of the smoothed light and what it falls on.
func (t *Tracer) bindPicture(in program, p *Picture) {
	gl.UseProgram(in.handle)
	in.texture("matt", 0, gl.TEXTURE_2D, t.smoothed.textures[0])
	in.texture("gloss", 1, gl.TEXTURE_2D, t.smoothed.textures[1])
	in.texture("albedo", 2, gl.TEXTURE_2D, p.sums.textures[2])
	in.texture("glossSum", 3, gl.TEXTURE_2D, p.sums.textures[1])
	p.count(in, 4)
}

// Meter is the smoothed picture's own exposure.
//
// Method: the mean of the logarithms of luminance, without the darkest tenth and
// the brightest part, goes half the way to a middle tone, what is bright half the
// way to near white: so a white room stays white and a dark one dark. White is drawn most of the way from the colour of the light on
// what is matt, as an eye adapts (and a photographer lets a lamp stay warm): what is of a colour itself turns nothing else.
func (t *Tracer) Meter(p *Picture, evening bool) (Exposure, error) {
	restore := drawing(false)
	defer restore()
	const across, down = 96, 60
	if err := t.metered.fit(across, down, 2, gl.RGBA32F); err != nil {
		return Exposure{}, err
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, t.metered.frame)
	gl.Viewport(0, 0, across, down)
	t.bindPicture(t.meter, p)
	t.meter.vec2("meterSize", across, down)
	gl.BindVertexArray(t.whole)
	gl.DrawArrays(gl.TRIANGLES, 0, 3)
	return Expose(t.metered.read(0), t.metered.read(1), evening), nil
}

// luminance of a colour in linear light (ITU-R BT.709).
func luminance(c mgl32.Vec3) float64 {
	return 0.2126*float64(c[0]) + 0.7152*float64(c[1]) + 0.0722*float64(c[2])
}

// Expose works the exposure out of pixels with the share that is anything, and of the light on them with the share that is
// matt: red, green, blue and the share of each.
func Expose(pixels, light []float32, evening bool) Exposure {
	middle, below, share := 0.46, 1.35, 0.8
	if evening {
		middle, below, share = 0.28, 1.15, 0.8
	}
	var logs []float64
	for i := 0; i+3 < len(pixels); i += 4 {
		if a := pixels[i+3]; a > 0.5 {
			c := mgl32.Vec3{finite(pixels[i]), finite(pixels[i+1]), finite(pixels[i+2])}.Mul(1 / a)
			logs = append(logs, math.Log(luminance(c)+1e-4))
		}
	}
	out := Exposure{Factor: 1, White: mgl32.Vec3{1, 1, 1}}
	if len(logs) == 0 {
		return out
	}
	slices.Sort(logs)
	n := len(logs)
	sum, from, to := 0.0, n/10, max(n/10+1, n*92/100)
	for _, l := range logs[from:to] {
		sum += l
	}
	bright := math.Exp(logs[n*85/100])
	factor := min(math.Sqrt(middle/math.Exp(sum/float64(to-from))*below/bright), 1.3*below/bright)
	out.Factor = float32(factor)
	const dimmest, brightest = 0.25, 3 // what is darker or burns out tells no colour
	var mean mgl32.Vec3
	for i := 0; i+3 < len(light); i += 4 {
		a := light[i+3]
		c := mgl32.Vec3{finite(light[i]), finite(light[i+1]), finite(light[i+2])}.Mul(1 / max(a, 0.5))
		if l := luminance(c) * factor; a > 0.5 && l > dimmest && l < brightest {
			mean = mean.Add(c.Mul(float32(1 / luminance(c))))
		}
	}
	if mean[0] > 0 && mean[1] > 0 && mean[2] > 0 {
		grey := luminance(mean)
		for k := range 3 {
			out.White[k] = float32(math.Pow(grey/float64(mean[k]), share))
		}
	}
	return out
}

// Inks are laid over a picture: sums of samples, premultiplied; none for zero.
type Inks struct {
	Texture uint32
	Samples int
}

// Show brings the smoothed picture to the screen's colours.
func (t *Tracer) Show(p *Picture, e Exposure, inks Inks, paper [4]float32, out *image.RGBA) error {
	restore := drawing(false)
	defer restore()
	if err := t.shown.fit(p.sums.width, p.sums.height, 1, gl.RGBA8); err != nil {
		return err
	}
	gl.BindFramebuffer(gl.FRAMEBUFFER, t.shown.frame)
	gl.Viewport(0, 0, int32(p.sums.width), int32(p.sums.height))
	t.bindPicture(t.tone, p)
	t.tone.number("exposure", e.Factor)
	t.tone.vec3("white", e.White)
	t.tone.vec4("paper", mgl32.Vec4(paper))
	t.tone.texture("inks", 5, gl.TEXTURE_2D, inks.Texture)
	t.tone.number("inkSamples", float32(inks.Samples))
	gl.BindVertexArray(t.whole)
	gl.DrawArrays(gl.TRIANGLES, 0, 3)
	gl.PixelStorei(gl.PACK_ALIGNMENT, 1)
	gl.ReadPixels(0, 0, int32(out.Rect.Dx()), int32(out.Rect.Dy()), gl.RGBA, gl.UNSIGNED_BYTE, gl.Ptr(out.Pix))
	return nil
}

// Light is the light of every pixel as it was sampled, red, green, blue and the share
// that met anything, lowest row first: for whoever measures.
func (p *Picture) Light() []float32 {
	matt, gloss, albedo := p.sums.read(0), p.sums.read(1), p.sums.read(2)
	for i := range gloss {
		n := float32(p.samplesAt(i/4%p.sums.width, i/4/p.sums.width))
		if i%4 == 3 {
			gloss[i] /= n
			continue
		}
		count := max(albedo[i|3], 1e-4)
		gloss[i] = (matt[i]*albedo[i]/count + gloss[i]) / n
	}
	return gloss
}
