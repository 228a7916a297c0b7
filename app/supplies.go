package app

import (
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// supplies are what comes with Underfall, and the user's own parts.
type supplies struct {
	shelf *words.Shelf // the languages there are
	packs map[string]rule.Pack
	demos []assets.Demo
	parts part.Shelf // what there is to choose from
	// ownParts is what was wrong with the user's own parts; nil for nothing.
	ownParts error
}

// loadSupplies reads them; the user's own from the program's own folder.
func loadSupplies(folder string) (supplies, error) {
	var s supplies
	var err error
	if s.shelf, err = words.Load(assets.Words()); err != nil {
		return s, err
	}
	if s.packs, err = assets.Rules(); err != nil {
		return s, err
	}
	if s.demos, err = assets.Demos(); err != nil {
		return s, err
	}
	known, err := assets.Parts()
	if err != nil {
		return s, err
	}
	// Those that come with Underfall are there whatever becomes of the user's own.
	own, wrong := store.OwnParts(folder, known)
	s.parts, s.ownParts = known.With(own), wrong
	return s, nil
}

// tellMissing says which of the supplies could not be read.
func (w *mainWindow) tellMissing() {
	if broken := w.shelf.Fault(); !broken.IsZero() {
		w.log("%s", broken)
		w.status.SetText(theme.Say(broken, unit.Metric))
	}
	if w.ownParts != nil {
		w.log("own parts: %v", w.ownParts)
		w.status.SetText(theme.Say(message.OfError(w.ownParts), unit.Metric))
	}
}
