package geometry_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

type manifoldMesh struct {
	Name      string        `json:"name"`
	Vertices  []float64     `json:"vertices"`
	Triangles []int32       `json:"triangles"`
	Cuts      [][16]float64 `json:"cuts"`
}

type manifoldPlane struct {
	Normal [3]float64 `json:"normal"`
	Offset float64    `json:"offset"`
}

type manifoldBoard struct {
	Name   string          `json:"name"`
	Box    [6]float64      `json:"box"`
	Cuts   [][6]float64    `json:"cuts"`
	Planes []manifoldPlane `json:"planes"`
}

type manifoldGap struct {
	Name  string       `json:"name"`
	A     manifoldMesh `json:"a"`
	B     manifoldMesh `json:"b"`
	Reach float64      `json:"reach"`
}

// manifoldShared asks for the volume two bodies share.
type manifoldShared struct {
	Name string       `json:"name"`
	A    manifoldMesh `json:"a"`
	B    manifoldMesh `json:"b"`
}

type manifoldAnswer struct {
	Name, Status string
	Volume, Gap  float64
	Genus        float64
	Sections     []float64
}

// askManifold runs the general mesh library manifold-3d over bodies; the test
// is skipped where node or the library is missing.
func askManifold(t *testing.T, meshes []manifoldMesh, boards []manifoldBoard, gaps []manifoldGap, shared ...manifoldShared) []manifoldAnswer {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is missing: volumes are not compared with manifold-3d")
	}
	folder := os.Getenv("UNDERFALL_NODE")
	if folder == "" {
		folder, _ = filepath.Abs("../.cache/node")
	}
	if _, err := os.Stat(filepath.Join(folder, "node_modules", "manifold-3d")); err != nil {
		t.Skip("manifold-3d is not installed (./cmd/dev test does it): volumes are not compared with it")
	}
	// Modules are found beside the script.
	script := filepath.Join(folder, "check.mjs")
	source, err := os.ReadFile("../testdata/manifold/check.mjs")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(script, source, 0o644); err != nil {
		t.Fatal(err)
	}
	input, err := json.Marshal(map[string]any{"meshes": meshes, "boards": boards, "gaps": gaps, "shared": shared})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, script)
	cmd.Stdin = bytes.NewReader(input)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("running manifold-3d: %v", err)
	}
	var answers []manifoldAnswer
	if err := json.Unmarshal(out, &answers); err != nil {
		t.Fatalf("reading manifold-3d's answer: %v\n%s", err, out)
	}
	return answers
}

// toZero is the column-major matrix that brings a cut's plane to z = 0.
func toZero(c solid.Cut) [16]float64 {
	o := mgl64.Vec3{-c.Origin.Dot(c.Along), -c.Origin.Dot(c.Up), -c.Origin.Dot(c.Normal)}
	return [16]float64{c.Along[0], c.Up[0], c.Normal[0], 0, c.Along[1], c.Up[1], c.Normal[1], 0, c.Along[2], c.Up[2], c.Normal[2], 0, o[0], o[1], o[2], 1}
}

func asManifoldMesh(name string, m *solid.Mesh) manifoldMesh {
	x := manifoldMesh{Name: name}
	for _, v := range m.Vertices {
		x.Vertices = append(x.Vertices, v[0], v[1], v[2])
	}
	for _, tri := range m.Triangles {
		x.Triangles = append(x.Triangles, tri[0], tri[1], tri[2])
	}
	return x
}

// freeCuts are cuts across all steps of a result, through two points of its room askew, turned
// out of its walls' directions, and at levels of base and tile.
func freeCuts(r geometry.Result) []section.Cutting {
	low, high, _ := r.Layout.Room.Bounds()
	at := func(x, y float64) plan.Point {
		return plan.Point{low.X() + x*(high.X()-low.X()), low.Y() + y*(high.Y()-low.Y())}
	}
	return append(section.AcrossSteps(r), section.Cutting{Of: section.CutDoor}, section.Cutting{Of: section.CutPipe},
		section.Cutting{Of: section.CutPoints, From: at(0.13, 0.21), To: at(0.71, 0.94)},
		section.Cutting{Of: section.CutDrain, TurnedDeg: 37}, section.Cutting{Of: section.CutDoor, TurnedDeg: -61.5},
		section.Cutting{Of: section.CutLevel, LevelMM: r.Heights.TileMM - 4}, section.Cutting{Of: section.CutLevel, LevelMM: r.Heights.BaseTopMM + 1.7})
}

// Every part of the slab and the let-in demos is a body that manifold-3d
// accepts, with the same volume and the same section areas; single precision
// there limits the agreement to about 1e-4.
func TestAgainstManifold(t *testing.T) {
	p := packs(t)
	type want struct {
		volume   float64
		sections []float64
	}
	var meshes []manifoldMesh
	wants := map[string]want{}
	for _, n := range []int{0, 2, 3} {
		r := geometry.Evaluate(demoJobs(t)[n].Job, p[demoJobs(t)[n].Job.Region])
		cuts := []solid.Cut{section.ThroughDrain(r), section.AlongRun(r), solid.HorizontalCut(r.Heights.BaseTopMM - 11.3)}
		for _, c := range freeCuts(r) {
			plane, err := c.Plane(r)
			if err != nil {
				t.Fatalf("%s: %v", demoJobs(t)[n].File, err)
			}
			cuts = append(cuts, plane)
		}
		for i := range cuts {
			// Off faces that lie exactly on the plane.
			cuts[i].Origin = cuts[i].Origin.Add(cuts[i].Normal.Mul(0.37))
		}
		for _, part := range r.Assembly.Parts {
			if _, shells := part.Shape.(solid.Compound); shells {
				continue // shells that touch face to face are not one manifold
			}
			m := part.Mesh()
			x := asManifoldMesh(demoJobs(t)[n].File+" "+part.ID, m)
			w := want{volume: part.Shape.Volume()}
			for _, c := range cuts {
				x.Cuts = append(x.Cuts, toZero(c))
				cut, err := m.Slice(c)
				if err != nil {
					t.Fatalf("%s: %v", x.Name, err)
				}
				w.sections = append(w.sections, cut.Area())
			}
			meshes = append(meshes, x)
			wants[x.Name] = w
		}
	}
	// The starting job's base and former again, made there from boxes and a
	// plane. Base: 1400 × 900, from 3 to 72, less the trap's channel (110 + 2·10
	// square about (700, 1832)) and the pipe's (halfwidth 25 + 3.5 + 10 about
	// y = 1832, from x = 0 to 645 and 10 past both ends), and the recess for the
	// drain's channel, 10 round it, from its underside at 95 − 25 up; both as far as the wall,
	// where 3 would be left. Former: from 75 to the
	// plane at 95 rising 1:50 from y = 1817 towards the room, less the drain.
	r := geometry.Evaluate(job.New(), p["UK"])
	boards := []manifoldBoard{
		{Name: "base", Box: [6]float64{0, 1000, 1400, 1900, 3, 72},
			Cuts: [][6]float64{{635, 1767, 765, 1900, 0, 100}, {-100, 1832 - 38.5, 655, 1832 + 38.5, 0, 100}, {290, 1807, 1110, 1900, 70, 100}}},
		{Name: "former", Box: [6]float64{0, 1000, 1400, 1817, 75, 200}, Planes: []manifoldPlane{{[3]float64{0, -0.02, -1}, -(95 + 1817*0.02) / math.Hypot(1, 0.02)}}},
	}
	for _, part := range r.Assembly.Parts {
		switch part.ID {
		case "base":
			wants["base"] = want{volume: part.Shape.Volume()}
		case "former":
			// Only the falling part in front of the drain.
			prism := part.Shape.(solid.Prism)
			front := prism
			var sh plan.Shaper
			front.Sheet = solid.Cover(&sh, sh.Intersect(prism.Sheet.Region(), plan.Rectangle(plan.Point{0, 1000}, plan.Point{1400, 1817}), message.Of("shape.falling-part")), message.Of("shape.falling-part"))
			if sh.Err() != nil {
				t.Fatal(sh.Err())
			}
			wants["former"] = want{volume: front.Volume()}
		}
	}
	answers := askManifold(t, meshes, boards, nil)
	if len(answers) != len(meshes)+len(boards) {
		t.Fatalf("%d answers for %d bodies", len(answers), len(meshes)+len(boards))
	}
	for _, a := range answers {
		w := wants[a.Name]
		if math.Abs(a.Volume-w.volume) > 2e-4*w.volume {
			t.Errorf("%s: manifold-3d says %s, volume %.1f; here %.1f", a.Name, a.Status, a.Volume, w.volume)
		}
		for i, area := range a.Sections {
			if math.Abs(area-w.sections[i]) > 5e-4*w.sections[i]+0.5 {
				t.Errorf("%s: section %d is %.2f there, %.2f here", a.Name, i, area, w.sections[i])
			}
		}
	}
	t.Logf("%d bodies compared", len(answers))
}

// Gaps between random joists and pipes, traps and joists, against the triangles
// that manifold-3d compares. A pipe's triangles lie up to the chord error inside
// it, so the gap there is as much greater.
func TestGapsAgainstManifold(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(7, 7))
	number := func(least, most float64) float64 { return least + (most-least)*random.Float64() }
	prism := func() (*clash.Prism, *solid.Mesh) {
		var sh plan.Shaper
		at, turn := plan.Point{number(-200, 200), number(-200, 200)}, mgl64.Rotate2D(number(0, 6))
		var ring plan.Ring
		half := plan.Point{number(20, 200), number(10, 60)}
		for _, q := range []plan.Point{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			ring = append(ring, at.Add(turn.Mul2x1(plan.Point{q.X() * half.X(), q.Y() * half.Y()})))
		}
		bottom := solid.Through(at, number(-200, 100), plan.Point{1, 0}, number(-0.05, 0.05))
		top := bottom.Raised(number(50, 250))
		return clash.NewPrism(ring, bottom, top), solid.Upright(solid.Cover(&sh, plan.FromRing(ring), message.Of("shape.block")), solid.Surface{bottom}, solid.Surface{top}).Mesh()
	}
	const reach = 500
	var gaps []manifoldGap
	wants, slack := map[string]float64{}, map[string]float64{}
	for len(gaps) < 150 {
		name := fmt.Sprint(len(gaps))
		p, mesh := prism()
		var got float64
		var other *solid.Mesh
		if len(gaps)%3 == 0 {
			o, m := prism()
			got, other, slack[name] = p.Gap(o).GapMM, m, 0
		} else {
			c := clash.Cylinder{From: mgl64.Vec3{number(-300, 300), number(-300, 300), number(-200, 200)}, RadiusMM: number(15, 55)}
			c.To = c.From.Add(mgl64.Vec3{number(-300, 300), number(-300, 300), number(-60, 60)})
			got, slack[name] = c.Gap(p).GapMM, 1.5*solid.ChordErrorMM
			other = solid.Tube{Path: []mgl64.Vec3{c.From, c.To}, OutsideRadiusMM: c.RadiusMM, InsideRadiusMM: c.RadiusMM / 2}.Mesh()
		}
		if got > reach || got > -1 && got < 0.5 || got < 0 && slack[name] > 0 {
			continue // out of reach, in doubt, or a block in the bore of a pipe
		}
		gaps = append(gaps, manifoldGap{name, asManifoldMesh("a", mesh), asManifoldMesh("b", other), reach})
		wants[name] = math.Max(0, got)
	}
	apart := 0
	for _, a := range askManifold(t, nil, nil, gaps) {
		if off := a.Gap - wants[a.Name]; off < -0.01 || off > slack[a.Name]+0.01 {
			t.Errorf("pair %s (%s): manifold-3d says %.4f, here %.4f", a.Name, a.Status, a.Gap, wants[a.Name])
		}
		if a.Gap > 0 {
			apart++
		}
	}
	if apart < 50 {
		t.Errorf("only %d pairs lie apart", apart)
	}
}
