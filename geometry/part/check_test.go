package part_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underfall/geometry/part"
	"underfall/geometry/source"
)

// problemsAre holds what is wrong with a part against “field id” for each problem.
func problemsAre(t *testing.T, name string, p part.Part, want ...string) {
	t.Helper()
	var got []string
	for _, x := range p.Check() {
		got = append(got, x.Field+" "+string(x.What.ID))
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s: %q, want %q", name, got, want)
	}
}

// bounds checks a number at its two limits and a hair beyond each.
func bounds[P part.Part](t *testing.T, sound func() P, field string, of func(*P) *float64, least, greatest float64, also ...string) {
	t.Helper()
	for v, fits := range map[float64]bool{least: true, greatest: true, math.Nextafter(least, -1e9): false, math.Nextafter(greatest, 1e9): false, math.NaN(): false} {
		p := sound()
		*of(&p) = v
		told := slices.ContainsFunc(p.Check(), func(x part.Problem) bool { return x.Field == field && x.What.ID == "problem.between" })
		if told == fits {
			t.Errorf("%s of %v is told of: %v; %v", field, v, told, p.Check())
		}
		for _, x := range p.Check() {
			if x.Field != field && !slices.Contains(also, x.Field) {
				t.Errorf("%s of %v makes %s wrong", field, v, x.Field)
			}
		}
	}
}

func TestSoundPartsHaveNoProblems(t *testing.T) {
	for _, p := range []part.Part{pipes(), boards(), screed(), former(), drain(), tile(), layer(), timber()} {
		problemsAre(t, p.Of().ID, p)
	}
}

func TestEveryNumberHasBounds(t *testing.T) {
	bounds(t, pipes, "usualMM", func(s *part.PipeSystem) *float64 { return &s.UsualMM }, 20, 200)
	bounds(t, pipes, "stockMM", func(s *part.PipeSystem) *float64 { return &s.StockMM }, 100, 20000)
	bounds(t, pipes, "reducers[0].lengthMM", func(s *part.PipeSystem) *float64 { return &s.Reducers[0].LengthMM }, 1, 2000)
	bounds(t, pipes, "adaptors[0].lengthMM", func(s *part.PipeSystem) *float64 { return &s.Adaptors[0].LengthMM }, 1, 2000)
	bounds(t, pipes, "adaptors[0].toMM", func(s *part.PipeSystem) *float64 { return &s.Adaptors[0].ToMM }, 20, 200)
	first := func(of func(*part.PipeSize) *float64) func(s *part.PipeSystem) *float64 {
		return func(s *part.PipeSystem) *float64 { return of(&s.Sizes[0]) }
	}
	// What hangs together with these is told of as well: it is checked below.
	bounds(t, pipes, "sizes[0].nominalMM", first(func(z *part.PipeSize) *float64 { return &z.NominalMM }), 20, 200, "sizes[1].nominalMM", "reducers[0].fromMM")
	bounds(t, pipes, "sizes[0].outsideDiameterMM", first(func(z *part.PipeSize) *float64 { return &z.OutsideDiameterMM }), 20, 250, "sizes[0].boreMM", "sizes[0].socketOutsideMM")
	bounds(t, pipes, "sizes[0].boreMM", first(func(z *part.PipeSize) *float64 { return &z.BoreMM }), 10, 240, "sizes[0].socketOutsideMM")
	bounds(t, pipes, "sizes[0].socketOutsideMM", first(func(z *part.PipeSize) *float64 { return &z.SocketOutsideMM }), 20, 300)
	bounds(t, pipes, "sizes[0].insertionMM", first(func(z *part.PipeSize) *float64 { return &z.InsertionMM }), 1, 300, "sizes[0].bend45FaceMM", "sizes[0].bend90FaceMM")
	bounds(t, pipes, "sizes[0].bend45FaceMM", first(func(z *part.PipeSize) *float64 { return &z.Bend45FaceMM }), 1, 300)
	bounds(t, pipes, "sizes[0].bend90FaceMM", first(func(z *part.PipeSize) *float64 { return &z.Bend90FaceMM }), 1, 500)

	bounds(t, boards, "thicknessesMM[0]", func(b *part.Boards) *float64 { return &b.ThicknessesMM[0] }, 1, 300, "thicknessesMM[1]")
	bounds(t, boards, "leastMM", func(b *part.Boards) *float64 { return &b.LeastMM }, 0, 200)
	bounds(t, boards, "sawMarginMM", func(b *part.Boards) *float64 { return &b.SawMarginMM }, 0, 100)
	bounds(t, boards, "bedMM", func(b *part.Boards) *float64 { return &b.BedMM }, 0, 50)
	bounds(t, boards, "widthMM", func(b *part.Boards) *float64 { return &b.WidthMM }, 100, 5000)
	bounds(t, boards, "lengthMM", func(b *part.Boards) *float64 { return &b.LengthMM }, 100, 5000, "keepZoneMM")
	bounds(t, boards, "keepZoneMM", func(b *part.Boards) *float64 { return &b.KeepZoneMM }, 0, 1200)
	bounds(t, boards, "betweenLeastMM", func(b *part.Boards) *float64 { return &b.BetweenLeastMM }, 0, 30, "betweenGreatestMM")
	bounds(t, boards, "betweenGreatestMM", func(b *part.Boards) *float64 { return &b.BetweenGreatestMM }, 2, 30)

	bounds(t, former, "lowEdgeMM", func(f *part.Former) *float64 { return &f.LowEdgeMM }, 0.5, 300)
	bounds(t, former, "bedMM", func(f *part.Former) *float64 { return &f.BedMM }, 0, 30)
	bounds(t, former, "longestMM", func(f *part.Former) *float64 { return &f.LongestMM }, 100, 10000)
	bounds(t, former, "widestMM", func(f *part.Former) *float64 { return &f.WidestMM }, 100, 10000)

	bounds(t, drain, "lengthsMM[1]", func(d *part.Drain) *float64 { return &d.LengthsMM[1] }, 50, 6000)
	bounds(t, drain, "widthMM", func(d *part.Drain) *float64 { return &d.WidthMM }, 20, 600)
	bounds(t, drain, "flangeMM", func(d *part.Drain) *float64 { return &d.FlangeMM }, 0, 300)
	bounds(t, drain, "channelDepthMM", func(d *part.Drain) *float64 { return &d.ChannelDepthMM }, 0, 300, "weirDepthMM")
	bounds(t, drain, "bodyDepthMM", func(d *part.Drain) *float64 { return &d.BodyDepthMM }, 10, 600, "outlets[0].invertDepthMM")
	bounds(t, drain, "bodySizeMM", func(d *part.Drain) *float64 { return &d.BodySizeMM }, 40, 500)
	bounds(t, drain, "weirDepthMM", func(d *part.Drain) *float64 { return &d.WeirDepthMM }, 1, 500, "bodyDepthMM", "outlets[0].invertDepthMM")
	bounds(t, drain, "sealMM", func(d *part.Drain) *float64 { return &d.SealMM }, 1, 200, "bodyDepthMM")
	bounds(t, drain, "passageMM", func(d *part.Drain) *float64 { return &d.PassageMM }, 1, 200, "bodyDepthMM")
	bounds(t, drain, "coverLeastMM", func(d *part.Drain) *float64 { return &d.CoverLeastMM }, 0, 200, "coverGreatestMM")
	bounds(t, drain, "coverGreatestMM", func(d *part.Drain) *float64 { return &d.CoverGreatestMM }, 8, 300)
	bounds(t, drain, "leastFormerMM", func(d *part.Drain) *float64 { return &d.LeastFormerMM }, 0, 100)
	outlet := func(of func(*part.Outlet) *float64) func(*part.Drain) *float64 {
		return func(d *part.Drain) *float64 { return of(&d.Outlets[0]) }
	}
	bounds(t, drain, "outlets[0].nominalMM", outlet(func(o *part.Outlet) *float64 { return &o.NominalMM }), 20, 200, "outlets[0].invertDepthMM")
	bounds(t, drain, "outlets[0].invertDepthMM", outlet(func(o *part.Outlet) *float64 { return &o.InvertDepthMM }), 5, 500)
	bounds(t, drain, "outlets[0].jointMM", outlet(func(o *part.Outlet) *float64 { return &o.JointMM }), 0, 300)
	bounds(t, drain, "outlets[0].jointOutsideMM", outlet(func(o *part.Outlet) *float64 { return &o.JointOutsideMM }), 20, 300)

	bounds(t, tile, "thicknessMM", func(x *part.Tile) *float64 { return &x.ThicknessMM }, 0.5, 100)
	bounds(t, tile, "toleranceMM", func(x *part.Tile) *float64 { return &x.ToleranceMM }, 0, 30)
	bounds(t, tile, "lengthMM", func(x *part.Tile) *float64 { return &x.LengthMM }, 5, 3500)
	bounds(t, tile, "widthMM", func(x *part.Tile) *float64 { return &x.WidthMM }, 5, 3500)
	bounds(t, tile, "jointMM", func(x *part.Tile) *float64 { return &x.JointMM }, 0, 30)
	bounds(t, layer, "thicknessMM", func(x *part.Layer) *float64 { return &x.ThicknessMM }, 0, 100)
	bounds(t, layer, "toleranceMM", func(x *part.Layer) *float64 { return &x.ToleranceMM }, 0, 30)
}

// What hangs together, at its limit and just beyond. Sizes may disagree by a hundredth.
func TestWhatHangsTogether(t *testing.T) {
	pipe := func(change func(*part.PipeSystem)) part.Part { s := pipes(); change(&s); return s }
	trap := func(change func(*part.Drain)) part.Part { d := drain(); change(&d); return d }
	board := func(change func(*part.Boards)) part.Part { b := boards(); change(&b); return b }
	for name, c := range map[string]struct {
		p    part.Part
		want []string
	}{
		"no size":      {pipe(func(s *part.PipeSystem) { s.Sizes, s.Reducers, s.Adaptors = nil, nil, nil }), []string{"sizes part.problem.no-sizes"}},
		"sizes alike":  {pipe(func(s *part.PipeSystem) { s.Sizes[1].NominalMM, s.Reducers, s.Adaptors = 40, nil, nil }), []string{"sizes[1].nominalMM part.problem.sizes-order"}},
		"sizes differ": {pipe(func(s *part.PipeSystem) { s.Sizes[1].NominalMM, s.Reducers, s.Adaptors = 40.1, nil, nil }), nil},
		"nut on pipe":  {pipe(func(s *part.PipeSystem) { s.Joint = part.Nut }), []string{"joint part.problem.joint"}},
		"solvent":      {pipe(func(s *part.PipeSystem) { s.Joint = part.Solvent }), nil},
		// Outside 40: a bore of 40 leaves no wall; of 39.9 a wall of 0.05.
		"no wall":   {pipe(func(s *part.PipeSystem) { s.Sizes[0].BoreMM = 40 }), []string{"sizes[0].boreMM problem.bore"}},
		"thin wall": {pipe(func(s *part.PipeSystem) { s.Sizes[0].BoreMM = 39.9 }), nil},
		// Wall (40 − 36)/2 = 2: the socket is at least 42.
		"socket":        {pipe(func(s *part.PipeSystem) { s.Sizes[0].SocketOutsideMM = 41.99 }), nil},
		"thin socket":   {pipe(func(s *part.PipeSystem) { s.Sizes[0].SocketOutsideMM = 41.98 }), []string{"sizes[0].socketOutsideMM part.problem.socket"}},
		"bends":         {pipe(func(s *part.PipeSystem) { s.Sizes[0].Bend45FaceMM, s.Sizes[0].Bend90FaceMM = 40.1, 40.1 }), nil},
		"short bends":   {pipe(func(s *part.PipeSystem) { s.Sizes[0].Bend45FaceMM, s.Sizes[0].Bend90FaceMM = 40, 40 }), []string{"sizes[0].bend45FaceMM part.problem.bend", "sizes[0].bend90FaceMM part.problem.bend"}},
		"reducer from":  {pipe(func(s *part.PipeSystem) { s.Reducers[0].FromMM = 45 }), []string{"reducers[0].fromMM part.problem.no-size"}},
		"reducer to":    {pipe(func(s *part.PipeSystem) { s.Reducers[0].ToMM = 45 }), []string{"reducers[0].toMM part.problem.no-size"}},
		"reducer none":  {pipe(func(s *part.PipeSystem) { s.Reducers[0].ToMM = 40 }), []string{"reducers[0].toMM part.problem.no-size"}},
		"reducer back":  {pipe(func(s *part.PipeSystem) { s.Reducers[0].FromMM, s.Reducers[0].ToMM = 50, 40 }), nil},
		"adaptor from":  {pipe(func(s *part.PipeSystem) { s.Adaptors[0].FromMM = 65 }), []string{"adaptors[0].fromMM part.problem.no-size"}},
		"adaptor home":  {pipe(func(s *part.PipeSystem) { s.Adaptors[0].To = "pipes" }), []string{"adaptors[0].to part.problem.id"}},
		"adaptor to":    {pipe(func(s *part.PipeSystem) { s.Adaptors[0].To = "" }), []string{"adaptors[0].to part.problem.id"}},
		"size's source": {pipe(func(s *part.PipeSystem) { s.Sizes[1].Source = source.Source{} }), []string{"sizes[1].source.mark part.problem.source"}},
		"bore's source": {pipe(func(s *part.PipeSystem) { s.Sizes[1].BoreSource = source.Source{Mark: source.Read} }),
			[]string{"sizes[1].boreSource.mark part.problem.source"}},
		"fittings' source": {pipe(func(s *part.PipeSystem) { s.Sizes[1].FittingSource.Mark = "seen" }), []string{"sizes[1].fittingSource.mark part.problem.source"}},
		"size's name":      {pipe(func(s *part.PipeSystem) { s.Sizes[0].Called = "DN\n40" }), []string{"sizes[0].called problem.unseen-characters"}},

		"boards alike": {board(func(b *part.Boards) { b.ThicknessesMM[1] = 10 }), []string{"thicknessesMM[1] part.problem.thickness-order"}},
		"most boards":  {board(func(b *part.Boards) { b.ThicknessesMM = upTo(part.MostBoards) }), nil},
		"too many":     {board(func(b *part.Boards) { b.ThicknessesMM = upTo(part.MostBoards + 1) }), []string{"thicknessesMM problem.too-many"}},
		"no boards": {board(func(b *part.Boards) { b.ThicknessesMM = nil }), []string{"lengthMM part.problem.screed", "widthMM part.problem.screed",
			"keepZoneMM part.problem.screed", "betweenLeastMM part.problem.screed", "betweenGreatestMM part.problem.screed"}},

		"no outlet": {trap(func(d *part.Drain) { d.Outlets = nil }), []string{"outlets part.problem.no-outlet"}},
		// The channel is 20 deep.
		"weir":          {trap(func(d *part.Drain) { d.WeirDepthMM = 20.1 }), nil},
		"weir too high": {trap(func(d *part.Drain) { d.WeirDepthMM = 20 }), []string{"weirDepthMM part.problem.weir-over-channel"}},
		// 30 + 50 + 10 + 2.5 = 92.5.
		"body":         {trap(func(d *part.Drain) { d.BodyDepthMM = 92.49 }), nil},
		"shallow body": {trap(func(d *part.Drain) { d.BodyDepthMM = 92.48 }), []string{"bodyDepthMM part.problem.body"}},
		"deep seal":    {trap(func(d *part.Drain) { d.SealMM = 50.02 }), []string{"bodyDepthMM part.problem.body"}},
		"deep passage": {trap(func(d *part.Drain) { d.PassageMM = 10.02 }), []string{"bodyDepthMM part.problem.body"}},
		"deep weir":    {trap(func(d *part.Drain) { d.WeirDepthMM = 30.02 }), []string{"bodyDepthMM part.problem.body"}},
		// The body's floor is at 92.5 − 2.5 = 90.
		"low outlet":     {trap(func(d *part.Drain) { d.Outlets[0].InvertDepthMM = 90.01 }), nil},
		"outlet too low": {trap(func(d *part.Drain) { d.Outlets[0].InvertDepthMM = 90.02 }), []string{"outlets[0].invertDepthMM part.problem.outlet-under-body"}},
		"high outlet":    {trap(func(d *part.Drain) { d.Outlets[0].InvertDepthMM, d.Outlets[0].NominalMM = 29.99, 25 }), nil},
		"outlet over the weir": {trap(func(d *part.Drain) { d.Outlets[0].InvertDepthMM, d.Outlets[0].NominalMM = 29.98, 25 }),
			[]string{"outlets[0].invertDepthMM part.problem.outlet-over-weir"}},
		"crown at the flange": {trap(func(d *part.Drain) { d.Outlets[0].NominalMM = 75.01 }), nil},
		"outlet over the flange": {trap(func(d *part.Drain) { d.Outlets[0].NominalMM = 75.02 }),
			[]string{"outlets[0].invertDepthMM part.problem.outlet-over-flange"}},
		"joint": {trap(func(d *part.Drain) { d.Outlets[0].Joint = "" }), []string{"outlets[0].joint part.problem.joint"}},
		// More water carries no less.
		"capacity the same":  {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1].FlowLPS = 0.4 }), nil},
		"capacity less":      {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1].FlowLPS = 0.39 }), []string{"outlets[0].capacity[1] problem.trap-data-order"}},
		"heads alike":        {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1].HeadMM = 10 }), []string{"outlets[0].capacity[1] problem.trap-data-order"}},
		"greatest capacity":  {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1] = part.HeadFlow{HeadMM: 500, FlowLPS: 20} }), nil},
		"head over 500":      {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1].HeadMM = 500.1 }), []string{"outlets[0].capacity[1] problem.trap-data-order"}},
		"flow over 20":       {trap(func(d *part.Drain) { d.Outlets[0].Capacity[1].FlowLPS = 20.1 }), []string{"outlets[0].capacity[1] problem.trap-data-order"}},
		"least capacity":     {trap(func(d *part.Drain) { d.Outlets[0].Capacity[0] = part.HeadFlow{} }), nil},
		"head under nothing": {trap(func(d *part.Drain) { d.Outlets[0].Capacity[0].HeadMM = -0.1 }), []string{"outlets[0].capacity[0] problem.trap-data-order"}},
		"flow under nothing": {trap(func(d *part.Drain) { d.Outlets[0].Capacity[0].FlowLPS = -0.1 }), []string{"outlets[0].capacity[0] problem.trap-data-order"}},
		"most points":        {trap(func(d *part.Drain) { d.Outlets[0].Capacity = points(part.MostPoints) }), nil},
		"too many points":    {trap(func(d *part.Drain) { d.Outlets[0].Capacity = points(part.MostPoints + 1) }), []string{"outlets[0].capacity problem.too-many"}},
		"no capacity known":  {trap(func(d *part.Drain) { d.Outlets[0].Capacity = nil }), nil},
	} {
		problemsAre(t, name, c.p, c.want...)
	}
}

func upTo(n int) (out []float64) {
	for i := range n {
		out = append(out, float64(i+1))
	}
	return out
}

func points(n int) (out []part.HeadFlow) {
	for i := range n {
		out = append(out, part.HeadFlow{HeadMM: float64(i), FlowLPS: 0.1})
	}
	return out
}

func TestWhatPartsSayOfThemselves(t *testing.T) {
	of := func(change func(*part.About)) part.Part { x := tile(); change(&x.About); return x }
	for name, c := range map[string]struct {
		p    part.Part
		want []string
	}{
		"id":           {of(func(a *part.About) { a.ID = "tile-2-of-9z" }), nil},
		"no id":        {of(func(a *part.About) { a.ID = "" }), []string{"id part.problem.id"}},
		"capital":      {of(func(a *part.About) { a.ID = "Tile" }), []string{"id part.problem.id"}},
		"blank":        {of(func(a *part.About) { a.ID = "a tile" }), []string{"id part.problem.id"}},
		"two hyphens":  {of(func(a *part.About) { a.ID = "a--tile" }), []string{"id part.problem.id"}},
		"last hyphen":  {of(func(a *part.About) { a.ID = "tile-" }), []string{"id part.problem.id"}},
		"long id":      {of(func(a *part.About) { a.ID = strings.Repeat("a", 121) }), []string{"id problem.too-long"}},
		"long name":    {of(func(a *part.About) { a.Called = strings.Repeat("é", 120) }), nil},
		"longer name":  {of(func(a *part.About) { a.Called = strings.Repeat("é", 121) }), []string{"called problem.too-long"}},
		"turned name":  {of(func(a *part.About) { a.Called = "a\u202eb" }), []string{"called problem.unseen-characters"}},
		"regions":      {of(func(a *part.About) { a.Regions = []string{"UK", "USA"} }), nil},
		"small region": {of(func(a *part.About) { a.Regions = []string{"UK", "us"} }), []string{"regions[1] part.problem.region"}},
		"short region": {of(func(a *part.About) { a.Regions = []string{"U"} }), []string{"regions[0] part.problem.region"}},
		"long region":  {of(func(a *part.About) { a.Regions = []string{"OZEA"} }), []string{"regions[0] part.problem.region"}},
		"no source":    {of(func(a *part.About) { a.Source = source.Source{} }), []string{"source.mark part.problem.source"}},
		"no document":  {of(func(a *part.About) { a.Source = source.Source{Mark: source.Memory} }), []string{"source.mark part.problem.source"}},
		"memory":       {of(func(a *part.About) { a.Source = source.Source{Document: "EN 1", Mark: source.Memory} }), nil},
		"odd document": {of(func(a *part.About) { a.Source = source.Source{Document: "EN\x001", Mark: source.Memory} }), []string{"source.document problem.unseen-characters"}},
		"odd edition":  {of(func(a *part.About) { a.Source = source.Source{Document: "EN 1", Edition: "\t", Mark: source.Memory} }), []string{"source.edition problem.unseen-characters"}},
		"lengthy clause": {of(func(a *part.About) {
			a.Source = source.Source{Document: "EN 1", Clause: strings.Repeat("1", 121), Mark: source.Memory}
		}), []string{"source.clause problem.too-long"}},
	} {
		problemsAre(t, name, c.p, c.want...)
	}
}

func TestFormersLayersTimber(t *testing.T) {
	falling := func(slope float64) part.Part { f := former(); f.Slope = slope; return f }
	lengths := func(longestMM, widestMM float64) part.Part {
		f := former()
		f.LongestMM, f.WidestMM = longestMM, widestMM
		return f
	}
	use := func(u part.LayerUse) part.Part { l := layer(); l.Use = u; return l }
	wood := func(bending, shear, modulus, density float64) part.Part {
		x := timber()
		x.BendingNMM2, x.ShearNMM2, x.ModulusNMM2, x.DensityKGM3 = bending, shear, modulus, density
		return x
	}
	problemsAre(t, "level", falling(0))
	problemsAre(t, "1 in 4", falling(0.25))
	problemsAre(t, "steeper", falling(0.2501), "slope part.problem.slope")
	problemsAre(t, "rising", falling(-0.0001), "slope part.problem.slope")
	problemsAre(t, "no number", falling(math.NaN()), "slope part.problem.slope")
	problemsAre(t, "any size", lengths(0, 0))
	problemsAre(t, "for the bed", use(part.ForBed))
	problemsAre(t, "for what", use("paint"), "use part.problem.use")
	problemsAre(t, "strongest", wood(200, 50, 50000, 2000))
	problemsAre(t, "weakest", wood(1e-9, 1e-9, 1e-9, 1e-9))
	problemsAre(t, "nothing", wood(0, 0, 0, 0), "bendingNMM2 part.problem.timber", "shearNMM2 part.problem.timber", "modulusNMM2 part.problem.timber", "densityKGM3 part.problem.timber")
	problemsAre(t, "steel", wood(200.1, 50.1, 50001, 2001), "bendingNMM2 part.problem.timber", "shearNMM2 part.problem.timber", "modulusNMM2 part.problem.timber", "densityKGM3 part.problem.timber")
}

// A problem names the numbers that disagree.
func TestProblemsNameTheirNumbers(t *testing.T) {
	s := pipes()
	s.Sizes[0].SocketOutsideMM = 41
	d := drain()
	d.BodyDepthMM = 92
	for want, p := range map[string]part.Part{
		"sizes[0].socketOutsideMM part.problem.socket{pipe: 40 mm, least: 42 mm}":                              s,
		"bodyDepthMM part.problem.body{weir: 30 mm, seal: 50 mm, passage: 10 mm, wall: 2.5 mm, need: 92.5 mm}": d,
	} {
		if got := p.Check().Error(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	s = pipes()
	s.Sizes, s.Reducers, s.Adaptors, s.Joint = nil, nil, nil, ""
	if got := s.Check().Error(); got != `joint part.problem.joint{joint: ""}; sizes part.problem.no-sizes` {
		t.Error(got)
	}
}

// Random sound parts are sound.
func TestRandomPartsAreSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someShelf.Draw(t, "shelf")
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
	})
}
