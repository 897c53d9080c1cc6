package geom

import (
	"bufio"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

const (
	longestToken = 1 << 20 // bytes of one tag or text between tags
	deepestTags  = 100
)

// xmlPart reads one part of a package, tag by tag. It hands out the unpacked
// bytes to the decoder itself, so that no tag and no package can be larger
// than is allowed.
type xmlPart struct {
	name    string
	pack    *package3MF
	file    io.ReadCloser
	in      *bufio.Reader
	decoder *xml.Decoder
	token   int // bytes that the present token may still have
	depth   int
}

func (p *package3MF) open(name string) (*xmlPart, error) {
	x := &xmlPart{name: name, pack: p}
	file := p.files[name]
	if file.Flags&1 != 0 {
		return nil, x.fault("is encrypted", "save it without a password")
	}
	var err error
	if x.file, err = file.Open(); err != nil {
		return nil, x.fault("can't be unpacked: "+err.Error(), fix3MF)
	}
	x.in = bufio.NewReader(x.file)
	x.decoder = xml.NewDecoder(x)
	return x, nil
}

func (x *xmlPart) close() { _ = x.file.Close() } // it was only read

// ReadByte gives the decoder the next byte.
func (x *xmlPart) ReadByte() (byte, error) {
	if x.token--; x.token < 0 {
		return 0, x.fault(fmt.Sprintf("has a tag or a text of more than %d bytes", longestToken), fix3MF)
	}
	if x.pack.left--; x.pack.left < 0 {
		if x.pack.byArchive {
			return 0, x.fault(fmt.Sprintf("is more than %d times as large as its archive once it is unpacked, as no drawing is", mostUnpacked), "export it again from the drawing program")
		}
		return 0, x.fault("is larger than the limit once it is unpacked", fixSmaller)
	}
	return x.in.ReadByte()
}

// Read is there because the decoder asks for a reader; it uses ReadByte.
func (x *xmlPart) Read(b []byte) (int, error) {
	c, err := x.ReadByte()
	if err != nil || len(b) == 0 {
		return 0, err
	}
	b[0] = c
	return 1, nil
}

// element is the start of an element.
type element struct{ xml.StartElement }

// attr returns an attribute without a prefix, "" where there is none.
func (e element) attr(name string) string {
	for _, a := range e.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// next returns the next start or end of an element.
func (x *xmlPart) next() (xml.Token, error) {
	for {
		x.token = longestToken
		token, err := x.decoder.Token()
		if err != nil {
			return nil, x.broken(err)
		}
		switch token.(type) {
		case xml.StartElement, xml.EndElement:
			return token, nil
		case xml.Directive:
			return nil, x.fault("has a document type declaration (DTD), which a 3MF file may not have: entities from outside are not read", fix3MF)
		}
	}
}

// broken is the error for XML that can't be read.
func (x *xmlPart) broken(err error) error {
	var fault *FileError
	switch {
	case errors.As(err, &fault):
		return fault
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return x.fault("ends too early", fix3MF)
	}
	return x.fault("can't be read: "+err.Error(), fix3MF)
}

// root reads the one element that a part consists of.
func (x *xmlPart) root(name string, visit func(element) error) error {
	token, err := x.next()
	if err != nil {
		return err
	}
	start, _ := token.(xml.StartElement)
	if start.Name.Local != name {
		return x.fault(fmt.Sprintf("begins with the element %s, not with %q", quoted([]byte(start.Name.Local)), name), fix3MF)
	}
	if err := visit(element{start}); err != nil {
		return err
	}
	for { // to the end, so that the archive's check sum is compared
		x.token = longestToken
		token, err := x.decoder.Token()
		switch token.(type) {
		case xml.StartElement, xml.Directive:
			return x.fault("has something after its end", fix3MF)
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return x.broken(err)
		}
	}
}

// children calls visit for each element within the present one, which must
// read that up to its end, and returns at the end of the present one.
func (x *xmlPart) children(visit func(element) error) error {
	if x.depth++; x.depth > deepestTags {
		return x.fault(fmt.Sprintf("has elements more than %d deep", deepestTags), fix3MF)
	}
	defer func() { x.depth-- }()
	for {
		token, err := x.next()
		if err != nil {
			return err
		}
		start, isStart := token.(xml.StartElement)
		if !isStart {
			return nil
		}
		if err := visit(element{start}); err != nil {
			return err
		}
	}
}

// skip passes over an element with all that is in it.
func (x *xmlPart) skip(element) error { return x.children(x.skip) }

// fault is an error at the present line of the part, if it has been opened.
func (x *xmlPart) fault(msg, fix string) error {
	fault := &FileError{Msg: printable(x.name) + " " + msg, Fix: fix}
	if x.decoder != nil {
		fault.Line, _ = x.decoder.InputPos()
	}
	return fault
}
