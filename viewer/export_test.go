package viewer

// NewRenderer is a renderer without a studio, for tests of what is drawn.
var NewRenderer = newRenderer

// Close is the renderer's.
func (r *Renderer) Close() { r.close() }
