package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"plumbhook/takeoff"
)

// folder is where an input and the files that it names are read from. What it
// opens stays below it, whatever the names and the links in it say: a load file
// that came by mail must not put a file of this machine into a lift sheet.
type folder struct {
	dir      string // as the user typed it
	typed    string // the name in it that the user typed: opened wherever it leads
	anywhere bool   // --allow-outside
	inputs   *inputFiles
}

// folderOf is the folder of a file that the user typed, and the name in it.
func (f *loadFlags) folderOf(name string) (folder, string) {
	clean := filepath.Clean(name)
	base := filepath.Base(clean)
	return folder{filepath.Dir(clean), base, f.takeoff.AllowOutside, f.inputs}, base
}

// foundIn is the folder of a file that the user did not type: it was found there.
func (f *loadFlags) foundIn(name string) (folder, string) {
	from, base := f.folderOf(name)
	from.typed = ""
	return from, base
}

// Open opens a file.
func (f folder) Open(name string) (fs.File, error) {
	file, err := f.open(name)
	if err != nil {
		return nil, err // not a nil *os.File in an interface
	}
	f.inputs.add(file)
	return file, nil
}

func (f folder) open(name string) (*os.File, error) {
	if name == f.typed {
		return openTyped(filepath.Join(f.dir, name))
	}
	full := f.typedAs(name)
	if f.anywhere {
		return openRegular(full, os.Stat, os.Open)
	}
	dir, within, err := f.within(full)
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(dir) // holds even if a link is changed meanwhile
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return openRegular(within, root.Stat, root.Open)
}

// typedAs is the name of a file as the user would type it.
func (f folder) typedAs(name string) string {
	if full := filepath.FromSlash(name); filepath.IsAbs(full) {
		return full
	}
	return filepath.Join(f.dir, filepath.FromSlash(name))
}

// within follows the links of a name, and sees that it stays in the folder. What
// it returns is free of links.
func (f folder) within(full string) (dir, name string, err error) {
	there, err := resolved(full)
	if err != nil {
		return "", "", err
	}
	if dir, err = resolved(f.dir); err != nil {
		return "", "", err
	}
	name, err = filepath.Rel(dir, there)
	if err != nil || !filepath.IsLocal(name) {
		return "", "", &takeoff.Unreadable{Text: "it leads out of the folder that is read from, to " + there,
			Fix: "put the file itself there in place of the link; or, where you trust what you were given, say --allow-outside"}
	}
	return dir, name, nil
}

// resolved is where a name leads, from the root of the disk.
func resolved(name string) (string, error) {
	there, err := filepath.EvalSymlinks(name)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission):
		return "", err
	case err != nil: // a link that leads to itself
		return "", &takeoff.Unreadable{Text: "where it leads can't be found out: " + err.Error(), Fix: "put the file itself there in place of the link"}
	}
	return filepath.Abs(there)
}

// openRegular opens a file that holds its bytes: no folder, pipe or device, which
// may have no end. It looks before it opens, since a pipe that no one writes to
// would keep it waiting.
func openRegular(name string, look func(string) (os.FileInfo, error), open func(string) (*os.File, error)) (*os.File, error) {
	info, err := look(name)
	if err != nil {
		return nil, err
	}
	if err := regular(info); err != nil {
		return nil, err
	}
	file, err := open(name)
	if err != nil {
		return nil, err
	}
	if info, err = file.Stat(); err == nil {
		err = regular(info)
	}
	if err != nil {
		_ = file.Close() // it was only opened
		return nil, err
	}
	return file, nil
}

func regular(info os.FileInfo) error {
	if info.Mode().IsRegular() {
		return nil
	}
	what := "a device"
	switch mode := info.Mode(); {
	case mode.IsDir():
		what = "a folder"
	case mode&os.ModeNamedPipe != 0:
		what = "a pipe"
	case mode&os.ModeSocket != 0:
		what = "a socket"
	}
	return &takeoff.Unreadable{Text: fmt.Sprintf("it is %s, not a file", what), Fix: "name the file that holds it"}
}

// openTyped opens what the user typed. That may be a pipe of the shell's own.
func openTyped(name string) (*os.File, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	if info, err := file.Stat(); err == nil && info.IsDir() {
		_ = file.Close() // it was only opened
		return nil, regular(info)
	}
	return file, nil
}
