package site

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Build builds the site of the source around the working directory into the folder
// out, or, for "", into a folder of the user's cache that is kept for the next time,
// and returns the folder. A site already in the cache for the same source and
// toolchain is returned as it is. out must be empty, missing, or a site built
// earlier: nothing else is overwritten.
func Build(ctx context.Context, out string) (string, error) {
	cached, err := found(ctx)
	if err != nil || out == "" {
		return cached, err
	}
	return out, publish(cached, out)
}

// found is the cache's site for the source, built where it is not there.
func found(ctx context.Context) (string, error) {
	root, err := Root("")
	if err != nil {
		return "", err
	}
	base, err := os.UserCacheDir()
	if err != nil {
		base = os.TempDir()
	}
	base = filepath.Join(base, "ruffwright")
	version, err := toolchain(ctx, root)
	if err != nil {
		return "", err
	}
	key, err := sourceKey(root, version)
	if err != nil {
		return "", err
	}
	dir := filepath.Join(base, "site-"+key)
	if whole(dir) {
		now := time.Now()
		os.Chtimes(dir, now, now) // in use: see forget; if it fails, it only looks old
		return dir, nil
	}
	if err := os.MkdirAll(base, 0o755); err != nil {
		return "", err
	}
	fresh, err := os.MkdirTemp(base, "building-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(fresh)
	if err := os.Chmod(fresh, 0o755); err != nil {
		return "", err
	}
	if err := compile(ctx, root, fresh); err != nil {
		return "", err
	}
	if err := os.Rename(fresh, dir); err != nil && !whole(dir) { // another build may have been first
		return "", err
	}
	forget(base, 6)
	return dir, nil
}

// toolchain is the version of the Go that will build.
func toolchain(ctx context.Context, root string) (string, error) {
	env := exec.CommandContext(ctx, "go", "env", "GOVERSION")
	env.Dir = root
	text, err := env.CombinedOutput()
	if err != nil {
		return "", failed("go env", text, err)
	}
	return strings.TrimSpace(string(text)), nil
}

// sourceRooms are the parts of the tree that reach the site.
var sourceRooms = []string{"go.mod", "go.sum", "index.html", "assets", "geom", "sim", "wasm", "cmd/site"}

// sourceKey names the source by its content: every file of sourceRooms that a
// build may read, tests and test data left out.
func sourceKey(root, version string) (string, error) {
	sum := sha256.New()
	fmt.Fprintln(sum, "site 1", version)
	for _, part := range sourceRooms {
		err := filepath.WalkDir(filepath.Join(root, part), func(name string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				if d.Name() == "testdata" {
					return fs.SkipDir
				}
				return nil
			}
			if strings.HasSuffix(name, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(root, name)
			if err != nil {
				return err
			}
			fmt.Fprintf(sum, "%s %d %x\n", filepath.ToSlash(rel), len(text), sha256.Sum256(text))
			return nil
		})
		if err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(sum.Sum(nil))[:16], nil
}

// forget keeps the sites of the cache that were used last, and what was used
// within a day: somebody may be serving it. It removes the others.
func forget(base string, keep int) {
	sites, err := filepath.Glob(filepath.Join(base, "site-*"))
	if err != nil || len(sites) <= keep {
		return
	}
	age := func(name string) int64 {
		if at, err := os.Stat(name); err == nil {
			return at.ModTime().UnixNano()
		}
		return 0
	}
	slices.SortFunc(sites, func(a, b string) int { return int(min(1, max(-1, age(a)-age(b)))) })
	for _, old := range sites[:len(sites)-keep] {
		if time.Since(time.Unix(0, age(old))) > 24*time.Hour {
			os.RemoveAll(old)
			os.Remove(packedName(old))
		}
	}
}
