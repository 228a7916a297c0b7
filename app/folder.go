package app

import (
	"fmt"
	"os"
)

// settleFyne gives Fyne a folder for its settings that lasts as long as the
// program where this computer names none: it would use the current one. The
// function it gives removes the folder.
func settleFyne() (remove func(), err error) {
	temporary := ""
	for name, folder := range map[string]func() (string, error){"XDG_CONFIG_HOME": os.UserConfigDir, "XDG_CACHE_HOME": os.UserCacheDir} {
		if _, missing := folder(); missing == nil {
			continue
		}
		if temporary == "" {
			if temporary, err = os.MkdirTemp("", "underfall-"); err != nil {
				return nil, fmt.Errorf("making a folder for the window's settings: %w", err)
			}
		}
		if err := os.Setenv(name, temporary); err != nil {
			return nil, fmt.Errorf("naming a folder for the window's settings: %w", err)
		}
	}
	return func() {
		if temporary != "" {
			_ = os.RemoveAll(temporary) // or the system does, some day
		}
	}, nil
}
