// The model one can turn. Runs only where scripts and WebGL do; else the still picture stays.
(function () {
  'use strict';
  var data = JSON.parse(document.getElementById('turn-data').textContent);
  var box = document.getElementById('turn');
  var view = document.getElementById('turn-view');

  function bytesOf(base64) {
    var text = atob(base64);
    var bytes = new Uint8Array(text.length);
    for (var i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    return bytes.buffer;
  }

  function makeRenderer() {
    try {
      var renderer = new THREE.WebGLRenderer({antialias: true});
      renderer.setPixelRatio(Math.min(2, window.devicePixelRatio || 1));
      renderer.shadowMap.enabled = true;
      renderer.shadowMap.type = THREE.PCFSoftShadowMap;
      renderer.gammaOutput = true;
      renderer.gammaFactor = 2.2;
      return renderer;
    } catch (why) {
      return null;
    }
  }

  var renderer = makeRenderer();
  if (!renderer) return;

  var scene = new THREE.Scene();
  scene.background = new THREE.Color(0xeef0ee);
  var middle = new THREE.Vector3().fromArray(data.size.middle);
  var across = data.size.across;
  var camera = new THREE.PerspectiveCamera(38, 1, across / 200, across * 20);

  var sky = new THREE.HemisphereLight(0xf4f6f8, 0x9a8f7c, 0.75);
  var sun = new THREE.DirectionalLight(0xfff4e0, 0.9);
  sun.castShadow = true;
  sun.shadow.mapSize.set(2048, 2048);
  var reach = across * 0.8;
  sun.shadow.camera.left = sun.shadow.camera.bottom = -reach;
  sun.shadow.camera.right = sun.shadow.camera.top = reach;
  sun.shadow.camera.near = 0.1;
  sun.shadow.camera.far = across * 4;
  sun.shadow.bias = -0.0008;
  sun.target.position.copy(middle);
  scene.add(sky, sun, sun.target);

  function setSun(towards) {
    sun.position.copy(middle).add(new THREE.Vector3().fromArray(towards).multiplyScalar(across * 2));
  }

  // Meshes in the file's order, which is that of data.parts.
  var layers = {};
  function sort(root) {
    var n = 0;
    root.traverse(function (thing) {
      if (!thing.isMesh) return;
      var part = data.parts[n++];
      if (!part) return;
      var clear = part.opacity < 0.95;
      thing.castShadow = !clear || part.layer === 'leaves';
      thing.receiveShadow = !clear;
      if (clear) {
        thing.material.transparent = true;
        thing.material.depthWrite = false;
      }
      (layers[part.layer] = layers[part.layer] || []).push(thing);
    });
  }

  function addSwitches() {
    var list = document.getElementById('turn-layers');
    Object.keys(layers).forEach(function (name, k) {
      var label = document.createElement('label');
      var tick = document.createElement('input');
      tick.type = 'checkbox';
      tick.checked = name !== 'roof';
      tick.id = 'turn-layer-' + k;
      function apply() {
        layers[name].forEach(function (thing) { thing.visible = tick.checked; });
        draw();
      }
      tick.addEventListener('change', apply);
      label.htmlFor = tick.id;
      label.appendChild(tick);
      label.appendChild(document.createTextNode(name));
      list.appendChild(label);
      apply();
    });
  }

  function addClock() {
    if (!data.suns.length) {
      setSun([-0.6, 0.75, 0.3]);
      return;
    }
    var slider = document.getElementById('turn-clock');
    var label = document.getElementById('turn-label');
    slider.max = String(data.suns.length - 1);
    slider.value = String(Math.floor(data.suns.length * 2 / 3));
    function apply() {
      var at = data.suns[Number(slider.value)];
      label.textContent = at.clock;
      setSun(at.towards);
      draw();
    }
    slider.addEventListener('input', apply);
    document.getElementById('turn-time').hidden = false;
    apply();
  }

  var controls = new THREE.OrbitControls(camera, renderer.domElement);
  controls.target.copy(middle);
  controls.maxPolarAngle = Math.PI * 0.98;
  controls.minDistance = across / 50;
  controls.maxDistance = across * 5;
  controls.enableKeys = false;
  controls.addEventListener('change', draw);

  // Arrow keys turn and tilt, plus and minus come nearer and go away.
  view.addEventListener('keydown', function (event) {
    var arm = camera.position.clone().sub(controls.target);
    var ball = new THREE.Spherical().setFromVector3(arm);
    var step = 0.08;
    if (event.key === 'ArrowLeft') ball.theta -= step;
    else if (event.key === 'ArrowRight') ball.theta += step;
    else if (event.key === 'ArrowUp') ball.phi = Math.max(0.05, ball.phi - step);
    else if (event.key === 'ArrowDown') ball.phi = Math.min(Math.PI - 0.05, ball.phi + step);
    else if (event.key === '+') ball.radius /= 1.1;
    else if (event.key === '-') ball.radius *= 1.1;
    else return;
    event.preventDefault();
    camera.position.copy(controls.target).add(new THREE.Vector3().setFromSpherical(ball));
    controls.update();
    draw();
  });

  var asked = false;
  function draw() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(function () {
      asked = false;
      renderer.render(scene, camera);
    });
  }

  // Farther off where the view is upright, as on a phone, so that the whole yard is in it.
  function standBack() {
    var upright = Math.max(1, 1.25 * view.clientHeight / Math.max(1, view.clientWidth));
    camera.position.copy(middle).add(
      new THREE.Vector3(-0.35, 0.75, 1.0).multiplyScalar(across * upright));
  }

  function fit() {
    var w = view.clientWidth;
    var h = view.clientHeight;
    if (!w || !h) return;
    renderer.setSize(w, h, false);
    camera.aspect = w / h;
    camera.updateProjectionMatrix();
    draw();
  }

  new THREE.GLTFLoader().parse(bytesOf(document.getElementById('turn-glb').textContent), '',
    function (loaded) {
      scene.add(loaded.scene);
      sort(loaded.scene);
      view.appendChild(renderer.domElement);
      box.hidden = false;
      document.getElementById('still').hidden = true;
      document.getElementById('turn-off').hidden = true;
      standBack();
      addSwitches();
      addClock();
      controls.update();
      window.addEventListener('resize', fit);
      fit();
      box.dataset.ready = 'yes';
    },
    function () { box.hidden = true; });
})();
