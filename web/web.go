// Package web embeds what a browser is sent beside the pages: one stylesheet,
// one small script, the mark and the text face. Each gets a name that carries
// a fingerprint of its content, so that a browser may keep it for ever.
//
// It refuses to know HTTP: it hands out bytes, and the server sends them.
package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"path"
	"sort"
	"strings"

	"codeberg.org/go-fonts/stix/stix2textitalic"
	"codeberg.org/go-fonts/stix/stix2textregular"
	"codeberg.org/go-fonts/stix/stix2textsemibold"
)

//go:embed static
var static embed.FS

// File is one thing that a page asks for by name.
type File struct {
	Path string // as a page names it, fingerprint included
	Type string // media type
	Body []byte
}

// Files holds everything that pages may ask for.
type Files struct {
	byName map[string]File // plain name, such as "rimward.css"
	byPath map[string]File
}

// Load gathers the embedded files; it fails only when the build is broken.
func Load() (*Files, error) {
	fs := &Files{byName: map[string]File{}, byPath: map[string]File{}}
	fs.add("text-regular.otf", "font/otf", stix2textregular.TTF)
	fs.add("text-italic.otf", "font/otf", stix2textitalic.TTF)
	fs.add("text-semibold.otf", "font/otf", stix2textsemibold.TTF)
	css, err := joined("static/css")
	if err != nil {
		return nil, err
	}
	fs.add("rimward.css", "text/css; charset=utf-8", fs.named(css))
	js, err := joined("static/js")
	if err != nil {
		return nil, err
	}
	fs.add("rimward.js", "text/javascript; charset=utf-8", js)
	icon, err := static.ReadFile("static/icon.svg")
	if err != nil {
		return nil, err
	}
	fs.add("icon.svg", "image/svg+xml", icon)
	return fs, nil
}

// add keeps a file under its fingerprinted name.
func (f *Files) add(name, kind string, body []byte) {
	sum := sha256.Sum256(body)
	ext := path.Ext(name)
	file := File{
		Path: "/static/" + strings.TrimSuffix(name, ext) + "-" + hex.EncodeToString(sum[:6]) + ext,
		Type: kind, Body: body,
	}
	f.byName[name], f.byPath[file.Path] = file, file
}

// named replaces url(NAME) in a stylesheet by the fingerprinted path of NAME.
func (f *Files) named(css []byte) []byte {
	for name, file := range f.byName {
		css = bytes.ReplaceAll(css, []byte("url("+name+")"), []byte("url("+file.Path+")"))
	}
	return css
}

// joined is the content of a folder's files, in the order of their names.
func joined(dir string) ([]byte, error) {
	names, err := fs.Glob(static, dir+"/*")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	var all []byte
	for _, n := range names {
		b, err := static.ReadFile(n)
		if err != nil {
			return nil, err
		}
		all = append(append(all, b...), '\n')
	}
	return all, nil
}

// Path is the fingerprinted path of a file by its plain name.
func (f *Files) Path(name string) string { return f.byName[name].Path }

// At finds a file by its fingerprinted path.
func (f *Files) At(path string) (File, bool) {
	file, ok := f.byPath[path]
	return file, ok
}

// Icon is the mark, for browsers that ask for /favicon.ico unbidden.
func (f *Files) Icon() File { return f.byName["icon.svg"] }
