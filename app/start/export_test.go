package start

import "fyne.io/fyne/v2"

// CornerAt is where the ring of a corner is in the window, for tests to press.
func (s *Sheet) CornerAt(wall int) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.board)
	return at.Add(s.board.scale().to(s.board.faces()[wall].b))
}

// WallAt is where a wall's letter is.
func (s *Sheet) WallAt(wall int) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(s.board).Add((&overlay{p: s.board, s: s.board.scale()}).letterAt(wall))
}
