package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Refill lays out anew what a scroller of the toolkit shows. The toolkit leaves it as far down as it was, even where
// what it shows now ends before that, and nothing would be seen.
func Refill(s *container.Scroll) {
	s.Content.Refresh()
	if furthest := max(0, s.Content.MinSize().Height-s.Size().Height); s.Offset.Y > furthest {
		s.ScrollToOffset(fyne.NewPos(s.Offset.X, furthest))
	}
}
