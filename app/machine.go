package app

import (
	"fmt"
	"runtime"

	"fyne.io/fyne/v2"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/answer"
	"underfall/app/sight"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// Preferences of this machine: how the program looks, whatever the job.
const (
	lookKey  = "look"        // lookLight or lookDark; empty for the system's
	largeKey = "large"       // everything to press large
	askedKey = "large-asked" // whether that is wanted
	stillKey = "still"       // nothing moves
	scaleKey = "scale"       // how many times as large as the system has it everything is
)

// The looks that can be kept to.
const (
	lookSystem = ""
	lookLight  = "light"
	lookDark   = "dark"
)

// scales are the sizes everything can have, of the system's.
func scales() []float64 { return []float64{1, 1.2, 1.5, 2} }

// scaleOf is the scale kept on this machine, one of those there are.
func scaleOf(p *store.Settings) float32 {
	kept, out := p.FloatWithFallback(scaleKey, 1), 1.0
	for _, s := range scales() {
		if s <= kept {
			out = s
		}
	}
	return float32(out)
}

// lookKept is the look to keep to on this machine.
func lookKept(p *store.Settings) string {
	const before = "dark" // how it was kept before it could follow the system
	if look := p.StringWithFallback(lookKey, "?"); look != "?" {
		return look
	}
	switch {
	case p.Bool(before):
		return lookDark
	case runtime.GOOS == "windows" || runtime.GOOS == "darwin":
		return lookSystem
	}
	return lookLight // elsewhere the toolkit takes a system that states nothing for a dark one
}

// dark tells whether the window is dark: as it is kept, or as the system is.
func (w *mainWindow) dark() bool {
	return w.look == lookDark || w.look == lookSystem && w.app.Settings().ThemeVariant() == fynetheme.VariantDark
}

// settleLook gives the theme what is kept on this machine, and follows the system from then on.
func (w *mainWindow) settleLook() {
	p := w.prefers
	if w.look = lookKept(p); w.options.Dark {
		w.look = lookDark
	}
	w.theme.SetDark(w.dark())
	w.theme.SetLarge(p.Bool(largeKey))
	w.theme.SetStill(p.Bool(stillKey))
	w.app.Settings().SetTheme(w.theme)
	w.app.Settings().AddListener(func(fyne.Settings) {
		if dark := w.dark(); dark != w.theme.Dark() {
			w.theme.SetDark(dark)
			w.sight.Do(w.repaint)
		}
	})
}

// keepLook keeps to a look on this machine.
func (w *mainWindow) keepLook(look string) {
	w.look = look
	w.prefers.SetString(lookKey, look)
	w.theme.SetDark(w.dark())
	w.app.Settings().SetTheme(w.theme)
	w.repaint()
}

// repaint draws all that has colours of its own anew.
func (w *mainWindow) repaint() {
	w.answer.Restyle()
	w.trial.Restyle()
	w.sight.Change(func(*sight.State) {})
	w.start.anew()
	w.log("dark %v", w.theme.Dark())
}

// toggleTheme makes the window dark or light, and keeps it so.
func (w *mainWindow) toggleTheme() {
	if w.theme.Dark() {
		w.keepLook(lookLight)
	} else {
		w.keepLook(lookDark)
	}
}

// setLarge has everything to press large, or not.
func (w *mainWindow) setLarge(on bool) {
	w.prefers.SetBool(largeKey, on)
	w.askLarge.Tell("", false)
	w.answer.Refill()
	if on == w.theme.IsLarge() {
		return
	}
	w.theme.SetLarge(on)
	w.app.Settings().SetTheme(w.theme)
	w.again()
	w.log("large %v", on)
}

// setStill has nothing move, or things move.
func (w *mainWindow) setStill(on bool) {
	w.prefers.SetBool(stillKey, on)
	w.theme.SetStill(on)
	w.log("still %v", on)
}

// setScale has everything so many times as large as the system has it.
func (w *mainWindow) setScale(to float64) {
	w.prefers.SetFloat(scaleKey, to)
	theme.SetScale(w.app, float32(to))
	w.app.Settings().SetTheme(w.theme) // which tells the window
	w.log("scale %g", to)
}

// offerLarge asks once on a machine, beside the answer of the first job, whether everything is to be large:
// the system does not tell fingers from a mouse. Asked is asked: the next job and the next window are
// without.
func (w *mainWindow) offerLarge() {
	p := w.prefers
	if !w.options.StartPage || p.Bool(askedKey) {
		return
	}
	p.SetBool(askedKey, true)
	w.askedAt = w.desk.Opened()
	answered := func(on bool) func() { return w.guard.Wrap(partWindow, func() { w.setLarge(on) }) }
	w.askLarge.Tell(theme.Word("app.large-ask"), false,
		answer.Offer{Text: theme.Word("app.large-yes"), Do: answered(true)}, answer.Offer{Text: theme.Word("app.large-no"), Do: answered(false)})
	w.answer.Refill()
}

// machineItem has the switches that are about this machine.
func (w *mainWindow) machineItem() *fyne.MenuItem {
	item := func(text string, on bool, f func()) *fyne.MenuItem {
		i := fyne.NewMenuItem(text, w.guard.Wrap(partWindow, f))
		i.Checked = on
		return i
	}
	under := func(name message.ID, items ...*fyne.MenuItem) *fyne.MenuItem {
		i := fyne.NewMenuItem(theme.Word(name), nil)
		i.ChildMenu = fyne.NewMenu("", items...)
		return i
	}
	var looks, sizes []*fyne.MenuItem
	for _, l := range []struct {
		look string
		name message.ID
	}{{lookSystem, "app.look-system"}, {lookLight, "app.look-light"}, {lookDark, "app.look-dark"}} {
		looks = append(looks, item(theme.Word(l.name), w.look == l.look, func() { w.keepLook(l.look) }))
	}
	items := []*fyne.MenuItem{
		under("app.look", looks...),
		item(theme.Word("app.large"), w.theme.IsLarge(), func() { w.setLarge(!w.theme.IsLarge()) }),
		item(theme.Word("app.moves"), !w.prefers.Bool(stillKey), func() { w.setStill(!w.prefers.Bool(stillKey)) }),
	}
	if theme.CanScale(w.app) {
		for _, s := range scales() {
			if w.room == nil || w.room(float32(s)) {
				sizes = append(sizes, item(fmt.Sprintf("%.0f %%", 100*s), theme.Scale(w.app) == float32(s), func() { w.setScale(s) }))
			}
		}
		items = append(items, under("app.scale", sizes...))
	}
	return under("app.machine", append(items, w.languageItem())...)
}
