package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"strings"
)

// The files of the page. The script in assets/dist is built from ui and is not kept
// with the source; without it the page is a plain form.

//go:embed assets
var assetFiles embed.FS

// script is the built script.
const script = "dist/app.js"

// assets are the files by their path below /assets/.
type assets map[string]asset

type asset struct {
	data    []byte
	kind    string
	version string // changes with the content, so that a browser may keep the file
}

var kinds = map[string]string{
	".css": "text/css; charset=utf-8",
	".js":  "text/javascript; charset=utf-8",
	".svg": "image/svg+xml",
}

func readAssets() (assets, error) {
	all := assets{}
	err := fs.WalkDir(assetFiles, "assets", func(name string, d fs.DirEntry, err error) error {
		kind, known := kinds[path.Ext(name)]
		if err != nil || d.IsDir() || !known {
			return err
		}
		data, err := assetFiles.ReadFile(name)
		if err != nil {
			return err
		}
		sum := sha256.Sum256(data)
		all[strings.TrimPrefix(name, "assets/")] = asset{data, kind, hex.EncodeToString(sum[:6])}
		return nil
	})
	return all, err
}

// link is the address of a file, or nothing if it was not built.
func (a assets) link(name string) string {
	file, ok := a[name]
	if !ok {
		return ""
	}
	return "/assets/" + name + "?v=" + file.version
}

func (s *server) asset(w http.ResponseWriter, r *http.Request) {
	file, ok := s.assets[r.PathValue("path")]
	if !ok {
		s.notFound(w, r)
		return
	}
	if r.URL.Query().Get("v") == file.version {
		w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	w.Header().Set("Content-Type", file.kind)
	_, _ = w.Write(file.data)
}

func (s *server) icon(w http.ResponseWriter, r *http.Request) {
	http.Redirect(w, r, s.assets.link("icon.svg"), http.StatusFound)
}

// frame is what every page carries around its content.
type frame struct {
	Style, Script, Icon, Version string
	Path                         string // of the page
	Tour                         int    // the station of the tour that it is; 0 for none
}

func (s *server) framed(r *http.Request) frame {
	return frame{s.assets.link("style.css"), s.assets.link(script), s.assets.link("icon.svg"), s.config.Version, r.URL.Path, tourOf(r)}
}
