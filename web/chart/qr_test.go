package chart

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var bar = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)

// drawn is the picture that the path makes, some pixels to a module.
func drawn(t *testing.T, q QR, scale int) image.Image {
	t.Helper()
	side, err := strconv.Atoi(q.Side)
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewGray(image.Rect(0, 0, side*scale, side*scale))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	bars := bar.FindAllStringSubmatch(q.Path, -1)
	if got := len(bar.ReplaceAllString(q.Path, "")); got != 0 || len(bars) == 0 {
		t.Fatalf("the path has %d characters that are no bars, of %d", got, len(q.Path))
	}
	for _, b := range bars {
		n := [5]int{}
		for i := 1; i < 5; i++ {
			n[i], _ = strconv.Atoi(b[i])
		}
		if n[3] != n[4] || n[1] < quiet || n[1]+n[3] > side-quiet || n[2] < quiet || n[2] >= side-quiet {
			t.Fatalf("the bar %s reaches into the quiet zone", b[0])
		}
		for y := n[2] * scale; y < (n[2]+1)*scale; y++ {
			for x := n[1] * scale; x < (n[1]+n[3])*scale; x++ {
				img.SetGray(x, y, color.Gray{})
			}
		}
	}
	return img
}

// What is drawn reads back with a reader that is none of ours: zbarimg of
// Debian's zbar-tools.
func TestQRReadsBack(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("zbarimg"); err != nil {
		if os.Getenv("RIMWARD_BROWSER") == "must" {
			t.Fatal("zbarimg is not installed, and this run must have it")
		}
		t.Skip("zbarimg is not installed (apt-get install zbar-tools): nothing reads the codes back")
	}
	for _, text := range []string{"http://127.0.0.1:7373/candles/1", "https://burns.example/candles/123456", "http://192.168.1.20:7373/" + strings.Repeat("studio/", 20)} {
		q, err := NewQR(text, "opens it")
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "qr.png")
		f, err := os.Create(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, drawn(t, q, 4)); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		out, err := exec.CommandContext(t.Context(), "zbarimg", "-q", "--raw", "-Sdisable", "-Sqrcode.enable", file).Output()
		if got := strings.TrimSpace(string(out)); err != nil || got != text {
			t.Errorf("read back %q (%v), want %q", got, err, text)
		}
	}
}

// Version 2, medium correction, holds 26 bytes and version 3 holds 42: 25 and 29
// modules to a side (ISO/IEC 18004, table 7), with four light ones around.
func TestQRSides(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{26: "33", 27: "37", 42: "37", 43: "41"} {
		if q, err := NewQR(strings.Repeat("a", n), ""); err != nil || q.Side != want {
			t.Errorf("%d bytes: %s modules (%v), want %s", n, q.Side, err, want)
		}
	}
	if _, err := NewQR(strings.Repeat("a", 3000), ""); err == nil {
		t.Error("3,000 bytes fit no code, and were drawn")
	}
}
