package viewer

import "slices"

// bodyBuffers are a body in the graphics memory.
type bodyBuffers struct{ faces, edges buffer }

// capBuffers are a cut face in the graphics memory.
type capBuffers struct {
	face                  capFace
	faces, outline, hatch buffer
}

// loadedScene is a scene in the graphics memory.
type loadedScene struct {
	scene  *Scene
	bodies []bodyBuffers
	flow   buffer
}

// loadedCaps are cut faces in the graphics memory; of no cut, none.
type loadedCaps struct {
	caps  *Caps
	faces []capBuffers
}

// mostLoaded is how many scenes and cuts stay in the graphics memory: all
// pictures of a comparison and the still drawn between them.
const mostLoaded = Slots + 1

func (r *Renderer) bodyBuffers() []bodyBuffers { return r.scenes[len(r.scenes)-1].bodies }

func (r *Renderer) flow() buffer { return r.scenes[len(r.scenes)-1].flow }

func (r *Renderer) capBuffers() []capBuffers { return r.caps[len(r.caps)-1].faces }

// load brings scene and caps to the graphics memory when they are new, and what
// was not used for longest out of it.
func (r *Renderer) load(f Frame) {
	r.loadScene(f.Scene)
	r.loadCaps(f.Caps)
}

// usedLast moves what is looked for to the list's end, where the newest stands,
// and tells whether it was there.
func usedLast[T any](list []T, is func(T) bool) bool {
	i := slices.IndexFunc(list, is)
	if i < 0 {
		return false
	}
	found := list[i]
	copy(list[i:], list[i+1:])
	list[len(list)-1] = found
	return true
}

func (r *Renderer) loadScene(s *Scene) {
	if usedLast(r.scenes, func(l loadedScene) bool { return l.scene == s }) {
		return
	}
	// What other scenes have of it stays where it is.
	have := map[*float32]bodyBuffers{}
	for _, l := range r.scenes {
		for i, b := range l.scene.Bodies {
			if len(b.vertices) > 0 {
				have[&b.vertices[0]] = l.bodies[i]
			}
		}
	}
	l := loadedScene{scene: s, flow: r.makeBuffer(strips(s.flow), 3, 3, 2)}
	for _, b := range s.Bodies {
		var buffers bodyBuffers
		if len(b.vertices) > 0 {
			var ok bool
			if buffers, ok = have[&b.vertices[0]]; !ok {
				buffers = bodyBuffers{r.makeBuffer(b.vertices, 3, 3), r.makeBuffer(strips(b.edges), 3, 3, 2)}
			}
		}
		l.bodies = append(l.bodies, buffers)
	}
	r.scenes = append(r.scenes, l)
	for len(r.scenes) > mostLoaded {
		r.dropScene()
	}
}

// dropScene takes the scene that was not used for longest out of the graphics
// memory, but for what others have of it.
func (r *Renderer) dropScene() {
	old := r.scenes[0]
	r.scenes = r.scenes[1:]
	used := map[bodyBuffers]bool{}
	for _, l := range r.scenes {
		for _, b := range l.bodies {
			used[b] = true
		}
	}
	for _, b := range old.bodies {
		if !used[b] {
			used[b] = true
			r.drop(b.faces, b.edges)
		}
	}
	r.drop(old.flow)
}

func (r *Renderer) loadCaps(c *Caps) {
	if usedLast(r.caps, func(l loadedCaps) bool { return l.caps == c }) {
		return
	}
	l := loadedCaps{caps: c}
	if c != nil {
		for _, face := range c.faces {
			l.faces = append(l.faces, capBuffers{face, r.makeBuffer(face.triangles, 3), r.makeBuffer(strips(face.outline), 3, 3, 2), r.makeBuffer(strips(face.hatch), 3, 3, 2)})
		}
	}
	r.caps = append(r.caps, l)
	for len(r.caps) > mostLoaded {
		r.dropCaps()
	}
}

func (r *Renderer) dropCaps() {
	for _, b := range r.caps[0].faces {
		r.drop(b.faces, b.outline, b.hatch)
	}
	r.caps = r.caps[1:]
}

// unload empties the graphics memory.
func (r *Renderer) unload() {
	for len(r.scenes) > 0 {
		r.dropScene()
	}
	for len(r.caps) > 0 {
		r.dropCaps()
	}
}
