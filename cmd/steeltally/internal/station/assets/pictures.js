// Pictures of tags: dropped on the page, chosen from a file, or taken by the camera.

export function pictures(read) {
  const file = document.getElementById("file");
  file.addEventListener("change", () => { for (const f of file.files) read(f); file.value = ""; });
  document.addEventListener("dragover", (e) => { e.preventDefault(); document.body.classList.add("dropping"); });
  document.addEventListener("dragleave", () => document.body.classList.remove("dropping"));
  document.addEventListener("drop", (e) => {
    e.preventDefault();
    document.body.classList.remove("dropping");
    for (const f of e.dataTransfer.files) read(f);
  });
  camera(read);
}

function camera(read) {
  const lens = document.getElementById("lens"), video = document.getElementById("video");
  let stream;
  const close = () => { stream?.getTracks().forEach((t) => t.stop()); lens.close(); };
  document.getElementById("camera").addEventListener("click", async () => {
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { width: { ideal: 3840 }, facingMode: "environment" } });
    } catch { return read(null); }
    video.srcObject = stream;
    video.play();
    lens.showModal();
  });
  document.getElementById("shut").addEventListener("click", close);
  document.getElementById("shoot").addEventListener("click", () => {
    const canvas = document.createElement("canvas");
    canvas.width = video.videoWidth;
    canvas.height = video.videoHeight;
    canvas.getContext("2d").drawImage(video, 0, 0);
    canvas.toBlob((b) => { close(); read(b); }, "image/png");
  });
}
