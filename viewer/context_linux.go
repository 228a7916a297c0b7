package viewer

/*
#cgo linux LDFLAGS: -lEGL
#include <stdlib.h>
#include <EGL/egl.h>
#include <EGL/eglext.h>

#ifndef EGL_PLATFORM_SURFACELESS_MESA
#define EGL_PLATFORM_SURFACELESS_MESA 0x31DD
#endif
#ifndef EGL_PLATFORM_DEVICE_EXT
#define EGL_PLATFORM_DEVICE_EXT 0x313F
#endif

static EGLContext tryDisplay(EGLDisplay d) {
	EGLint major, minor, n;
	if (d == EGL_NO_DISPLAY || !eglInitialize(d, &major, &minor)) return EGL_NO_CONTEXT;
	if (!eglBindAPI(EGL_OPENGL_API)) return EGL_NO_CONTEXT;
	EGLint want[] = {EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
	EGLConfig config = NULL;
	if (!eglChooseConfig(d, want, &config, 1, &n) || n < 1) {
		EGLint any[] = {EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
		if (!eglChooseConfig(d, any, &config, 1, &n) || n < 1) return EGL_NO_CONTEXT;
	}
	// 4.3 has shaders that compute; 3.3 is enough.
	EGLContext c = EGL_NO_CONTEXT;
	for (EGLint version = 4; version >= 3 && c == EGL_NO_CONTEXT; version--) {
		EGLint attributes[] = {EGL_CONTEXT_MAJOR_VERSION, version, EGL_CONTEXT_MINOR_VERSION, 3,
			EGL_CONTEXT_OPENGL_PROFILE_MASK, EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
		c = eglCreateContext(d, config, EGL_NO_CONTEXT, attributes);
	}
	return c;
}

// openContext finds a display that needs no window: Mesa's surfaceless
// platform first, then each EGL device.
static int openContext(EGLDisplay *display, EGLContext *context) {
	PFNEGLGETPLATFORMDISPLAYEXTPROC getPlatform = (PFNEGLGETPLATFORMDISPLAYEXTPROC)eglGetProcAddress("eglGetPlatformDisplayEXT");
	if (!getPlatform) return 0;
	*display = getPlatform(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, NULL);
	*context = tryDisplay(*display);
	if (*context == EGL_NO_CONTEXT) {
		PFNEGLQUERYDEVICESEXTPROC query = (PFNEGLQUERYDEVICESEXTPROC)eglGetProcAddress("eglQueryDevicesEXT");
		EGLDeviceEXT devices[16];
		EGLint n = 0;
		if (query && query(16, devices, &n)) {
			for (EGLint i = 0; i < n && *context == EGL_NO_CONTEXT; i++) {
				*display = getPlatform(EGL_PLATFORM_DEVICE_EXT, devices[i], NULL);
				*context = tryDisplay(*display);
			}
		}
	}
	if (*context == EGL_NO_CONTEXT) return 0;
	if (!eglMakeCurrent(*display, EGL_NO_SURFACE, EGL_NO_SURFACE, *context)) {
		eglDestroyContext(*display, *context);
		return 0;
	}
	return 1;
}

// resetStatus is what the driver says of a reset; 0 when there was none or it
// cannot tell.
typedef unsigned int (*resetStatusFunction)(void);
static unsigned int resetStatus(void) {
	resetStatusFunction f = (resetStatusFunction)eglGetProcAddress("glGetGraphicsResetStatusARB");
	return f ? f() : 0;
}

static void closeContext(EGLDisplay display, EGLContext context) {
	eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
	eglDestroyContext(display, context);
}
*/
import "C"

import (
	"errors"
	"unsafe"
)

// glContext is an OpenGL 3.3 core context that belongs to no window. It is
// current on the thread that opened it.
type glContext struct {
	display C.EGLDisplay
	context C.EGLContext
}

// openContext makes a context current on the calling thread, which must be
// locked to its goroutine.
func openContext() (*glContext, error) {
	c := &glContext{}
	if C.openContext(&c.display, &c.context) == 0 {
		return nil, errors.New("this computer's graphics driver offers no OpenGL 3.3 without a window")
	}
	return c, nil
}

// lost tells whether the driver dropped the context.
func (c *glContext) lost() bool {
	return C.eglGetCurrentContext() != c.context || C.resetStatus() != 0
}

func (c *glContext) close() { C.closeContext(c.display, c.context) }

// procAddress finds an OpenGL function of the context.
func (c *glContext) procAddress(name string) unsafe.Pointer {
	text := C.CString(name)
	defer C.free(unsafe.Pointer(text))
	return unsafe.Pointer(C.eglGetProcAddress(text))
}
