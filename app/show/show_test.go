package show

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/viewer"
)

// picture stands in for the 3D picture and keeps what it is asked for.
type picture struct {
	canvas.Rectangle
	looked   viewer.View
	compared *geometry.Result
}

func (p *picture) Look(v viewer.View)            { p.looked = v }
func (p *picture) Turn(yaw, pitch float64)       {}
func (p *picture) Compare(with *geometry.Result) { p.compared = with }
func (p *picture) Moves() bool                   { return false }

// The showroom changes the job by its large controls, compares, looks inside, and asks to be left.
func TestTheControls(t *testing.T) {
	b := roomtest.New(t, roomtest.First(t))
	looked, p, left := sight.New(b.Do, b.Guard), &picture{}, 0
	looked.State = ForCustomers(looked.State)
	s := Open(Asks{Job: b.Desk.Job, Result: func() geometry.Result { return b.Change.Result }, Do: func(e edit.Edit) { b.Desk.Do(e) },
		Leave: func() { left++ }}, p, looked, b.Theme)
	t.Cleanup(s.End)
	test.NewTempWindow(t, s.Object()).Resize(fyne.NewSize(1280, 800))
	b.Desk.Subscribe(func(desk.Change) { s.Build() })
	press := func(label string) {
		t.Helper()
		for _, o := range test.LaidOutObjects(s.controls) {
			if b, ok := o.(*widget.Button); ok && b.Text == label {
				b.OnTapped()
				return
			}
		}
		t.Fatalf("no button %q", label)
	}
	width := b.Desk.Job().Shower.WidthMM
	press("−")
	b.Until("the smaller shower", func() bool { return b.Change.Result.Settled.Shower.WidthMM == width-100 })
	press("Brass")
	b.Until("brass", func() bool { return b.Change.Result.Settled.Style.Metal == job.MetalBrass })
	press("Keep this to compare")
	if p.compared == nil || p.compared.Settled.Style.Metal != job.MetalBrass {
		t.Error("what is kept is not the shower as it is")
	}
	press("Terrazzo")
	b.Until("terrazzo", func() bool { return b.Change.Result.Settled.Layers.Shower.Surface == job.SurfaceTerrazzo })
	if p.compared.Settled.Layers.Shower.Surface == job.SurfaceTerrazzo {
		t.Error("what is kept changes")
	}
	press("Stop comparing")
	if p.compared != nil {
		t.Error("two are compared still")
	}
	press("Look inside")
	if !looked.CutOn || !looked.Corner || p.looked != viewer.ViewCut {
		t.Error("one cannot look inside")
	}
	press("Close")
	if left != 1 {
		t.Errorf("%d times it is asked to leave", left)
	}
}
